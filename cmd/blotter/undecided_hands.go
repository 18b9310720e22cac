package main

import (
	"context"
	"strings"

	"blotter/ledger"
	"blotter/ledger/gitrepo"
	"blotter/ledger/history"
	"blotter/ledger/merge"
)

// manyVersions bounds how far back it is looked for who wrote something.
const manyVersions = 40

// whoWrote finds who gave each reading of what two copies have otherwise, as
// far as the history says: path is the ledger's, ours and theirs are the
// revisions that hold the two versions, "" for one that is not known.
func whoWrote(ctx context.Context, repo *gitrepo.Repo, path string, open []merge.Conflict, ours, theirs string) {
	if len(open) == 0 || repo == nil {
		return
	}
	sides := [2][]versionOf{}
	for i, tip := range []string{ours, theirs} {
		if tip != "" {
			sides[i] = versionsOf(ctx, repo, path, tip)
		}
	}
	for i := range open {
		open[i].OursBy, open[i].TheirsBy = wroteIt(sides[0], open[i].Path), wroteIt(sides[1], open[i].Path)
	}
}

// versionOf is one version of a file in its words.
type versionOf struct {
	by    history.Person
	words []ledger.KV
}

func versionsOf(ctx context.Context, repo *gitrepo.Repo, path, tip string) []versionOf {
	list, err := repo.FileVersions(ctx, tip, nil, repo.Prefix()+path, manyVersions)
	if err != nil {
		return nil // the question can be asked without names
	}
	var out []versionOf
	for _, v := range list {
		x := versionOf{by: v.Author}
		if v.Blob != "" {
			if src, err := repo.Blob(ctx, v.Blob); err == nil {
				doc, _ := ledger.DecodeDocument(path, src)
				x.words = ledger.Flatten(doc)
			}
		}
		out = append(out, x)
	}
	return out
}

// wroteIt is who, going back from the newest version, first gave a field the
// words that it has now.
func wroteIt(versions []versionOf, field string) merge.Hand {
	if len(versions) == 0 {
		return merge.Hand{}
	}
	top, _, _ := strings.Cut(field, ".")
	if f, ok := ledger.FieldAt(ledger.RecordKind, top); ok && f.Kind == ledger.Entries {
		field = top // places in a list move
	}
	now := wordsAt(versions[0].words, field)
	at := 0
	for at+1 < len(versions) && wordsAt(versions[at+1].words, field) == now {
		at++
	}
	return merge.Hand{Name: versions[at].by.Name, When: versions[at].by.When}
}

// wordsAt is what stands at a path and below it.
func wordsAt(words []ledger.KV, path string) string {
	var b strings.Builder
	for _, kv := range words {
		if path == "" || kv.Key == path || strings.HasPrefix(kv.Key, path+".") {
			b.WriteString(kv.Key + "\x00" + kv.Value + "\x01")
		}
	}
	return b.String()
}
