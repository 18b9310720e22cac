package gitrepo

import (
	"context"
	"os"
)

// lead makes HEAD lead to m.To, and the index hold what it has.
func (m *mending) lead(ctx context.Context) error {
	r := m.r
	if m.From != m.To {
		dir, name := r.gitDir, "HEAD"
		if branch, err := r.Branch(); err == nil && branch != "" {
			dir, name = r.common, "refs/heads/"+branch
		}
		if err := writeRef(dir, name, m.To); err != nil {
			return err
		}
	} else if !r.wrongIndex(true) {
		return nil
	}
	if _, err := os.Lstat(r.index); err == nil {
		if err := m.keep(r.index, "index"); err != nil {
			return err
		}
	}
	if r.git != "" {
		_, err := r.run(ctx, nil, "read-tree", "HEAD")
		return err
	}
	return r.indexAnew(ctx, m.To)
}

// indexAnew writes the index of a commit where there is none.
func (r *Repo) indexAnew(ctx context.Context, id string) error {
	raw, err := r.rootTree(ctx, id)
	if err != nil {
		return err
	}
	var files []backFile
	err = treeReader{r: r, ctx: ctx}.walk(raw, "", func(path string, e entry) error {
		files = append(files, backFile{path: path, mode: e.mode, id: e.id})
		return nil
	})
	if err != nil {
		return err
	}
	return r.indexNative(files)
}
