package main

import (
	"bytes"
	"context"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"
	"time"

	"blotter/ledger"
	"blotter/ledger/disk"
	"blotter/ledger/gitrepo"
	"blotter/ledger/history"
)

// event is one thing that somebody did on one day of the story; its form is
// described at the head of events.txt.
type event struct {
	when  time.Time
	who   string
	lines []string
	line  int // of events.txt
}

// readEvents reads the script of events.
func readEvents(files fs.FS) ([]event, error) {
	text, err := fs.ReadFile(files, "events.txt")
	if err != nil {
		return nil, err
	}
	var all []event
	n := 0
	for line := range strings.Lines(string(text)) {
		n++
		line = strings.TrimSpace(line)
		if line == "" || line[0] == '#' {
			continue
		}
		stamp, who, _ := strings.Cut(line, " ")
		if when, err := time.Parse(time.RFC3339, stamp); err == nil {
			all = append(all, event{when: when, who: who, line: n})
			continue
		}
		if len(all) == 0 {
			return nil, fmt.Errorf("events.txt:%d: something is done before anybody does it", n)
		}
		all[len(all)-1].lines = append(all[len(all)-1].lines, line)
	}
	return all, nil
}

// story replays events into a folder.
type story struct {
	*call
	files fs.FS
	dir   string
	mails map[string]string // by name, from people.yaml
}

// demoEnviron is the environment of the demo: the person's own git settings
// neither count nor change, and git neither waits for the disk nor looks after
// each entry whether the ledger wants packing: the demo can be made again.
func demoEnviron(environ []string) []string {
	var out []string
	for _, kv := range environ {
		if !strings.HasPrefix(kv, "GIT_") {
			out = append(out, kv)
		}
	}
	return append(out, "GIT_CONFIG_NOSYSTEM=1", "GIT_CONFIG_GLOBAL="+os.DevNull,
		"GIT_CONFIG_COUNT=2", "GIT_CONFIG_KEY_0=maintenance.auto", "GIT_CONFIG_VALUE_0=false",
		"GIT_CONFIG_KEY_1=core.fsync", "GIT_CONFIG_VALUE_1=none",
		"GIT_AUTHOR_NAME=Tiril Aune", "GIT_AUTHOR_EMAIL=tiril@lauvkroken.example",
		"GIT_COMMITTER_NAME=Tiril Aune", "GIT_COMMITTER_EMAIL=tiril@lauvkroken.example")
}

// play does one event.
func (s *story) play(ctx context.Context, e event) error {
	for i, line := range e.lines {
		words, err := splitWords(line)
		if err != nil {
			return fmt.Errorf("events.txt:%d: %w", e.line+i+1, err)
		}
		switch words[0] {
		case "museum":
			err = s.museum(ctx, e)
		case "files":
			err = s.bring(words[1])
		case "blotter":
			err = s.command(ctx, e, words)
		case "throw":
			err = os.Remove(filepath.Join(s.dir, words[1]))
		default:
			err = fmt.Errorf("nobody can do %q", words[0])
		}
		if err != nil {
			return fmt.Errorf("events.txt:%d: %s: %w", e.line+i+1, line, err)
		}
	}
	return nil
}

// museum makes the folder a ledger with the museum's first files.
func (s *story) museum(ctx context.Context, e event) error {
	repo, err := gitrepo.Init(ctx, s.dir, demoEnviron(s.Environ))
	if err != nil {
		return err
	}
	defer repo.Close()
	written := []string{".gitattributes", ".gitignore", ledger.SchemaFile, ledger.WorkSchema}
	for i, text := range []string{gitAttributes, gitIgnore, string(ledger.Schema())} {
		if err := s.write(written[i], []byte(text)); err != nil {
			return err
		}
	}
	err = fs.WalkDir(s.files, "museum", func(p string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := fs.ReadFile(s.files, p)
		if err != nil {
			return err
		}
		rel := strings.TrimPrefix(p, "museum/")
		written = append(written, rel)
		return s.write(rel, text)
	})
	if err != nil {
		return err
	}
	text, err := fs.ReadFile(s.files, "museum/"+ledger.PeopleFile)
	if err != nil {
		return err
	}
	people, _ := ledger.DecodePeople(ledger.PeopleFile, text)
	s.mails = map[string]string{}
	for _, p := range people.People {
		s.mails[p.Name.Text] = p.Email.Text
	}
	who := history.Person{Name: e.who, Email: s.mail(e.who), When: e.when}
	_, err = repo.Commit(ctx, gitrepo.CommitRequest{Paths: written, Message: "A new ledger: Lauvkroken Museum (LK7)\n", Author: who})
	return err
}

// bring writes the files of gatherings/DIR into the ledger; lines alone go
// behind those of the work that stands.
func (s *story) bring(dir string) error {
	root := path.Join("gatherings", dir)
	return fs.WalkDir(s.files, root, func(p string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := fs.ReadFile(s.files, p)
		if err != nil {
			return err
		}
		rel := strings.TrimPrefix(p, root+"/")
		if n := ledger.Number(strings.TrimSuffix(rel, ".yaml")); !strings.Contains(rel, "/") && strings.HasSuffix(rel, ".yaml") && rel != ledger.PeopleFile && rel != ledger.PlacesFile && rel != ledger.MuseumFile {
			rel = n.Path()
		}
		if strings.HasPrefix(rel, ledger.WorkDir+"/") && bytes.HasPrefix(text, []byte("  - ")) {
			stands, err := os.ReadFile(filepath.Join(s.dir, filepath.FromSlash(rel)))
			if err != nil {
				return err
			}
			text = append(stands, text...)
		}
		return s.write(rel, text)
	})
}

func (s *story) write(rel string, text []byte) error {
	file := filepath.Join(s.dir, filepath.FromSlash(rel))
	if err := os.MkdirAll(filepath.Dir(file), 0o777); err != nil {
		return err
	}
	return disk.WriteFile(file, text)
}

// command runs a command as the person of the event, at its moment, and without
// the git program: the entries come out the same, and hundreds of them take a
// third of the time when no program is begun for any.
func (s *story) command(ctx context.Context, e event, words []string) error {
	var said bytes.Buffer
	when := e.when.Format(time.RFC3339)
	env := *s.env
	env.In, env.Out, env.Err, env.Dir = strings.NewReader(""), &said, &said, s.dir
	env.Asks, env.Screen, env.echo = false, false, nil
	env.Now = func() time.Time { return e.when }
	env.Environ = append(demoEnviron(s.Environ), "PATH=",
		"GIT_AUTHOR_NAME="+e.who, "GIT_AUTHOR_EMAIL="+s.mail(e.who), "GIT_AUTHOR_DATE="+when,
		"GIT_COMMITTER_NAME="+e.who, "GIT_COMMITTER_EMAIL="+s.mail(e.who), "GIT_COMMITTER_DATE="+when)
	if code := run(ctx, words, &env); code != exitFine {
		return fmt.Errorf("exit %d: %s", code, said.String())
	}
	return nil
}

// mail is the address of a person of the story.
func (s *story) mail(who string) string {
	if m := s.mails[who]; m != "" {
		return m
	}
	return strings.ToLower(strings.Fields(who)[0]) + "@lauvkroken.example"
}

// splitWords parts a line at blanks; "double quotes" hold words together, and
// \" is a quotation mark in them.
func splitWords(line string) ([]string, error) {
	var words []string
	var word strings.Builder
	open, begun := false, false
	for i := 0; i < len(line); i++ {
		switch c := line[i]; {
		case c == '\\' && open && i+1 < len(line) && line[i+1] == '"':
			word.WriteByte('"')
			i++
		case c == '"':
			open, begun = !open, true
		case c == ' ' && !open:
			if begun {
				words = append(words, word.String())
				word.Reset()
				begun = false
			}
		default:
			word.WriteByte(c)
			begun = true
		}
	}
	if open {
		return nil, fmt.Errorf("a quotation mark is not closed")
	}
	if begun {
		words = append(words, word.String())
	}
	return words, nil
}
