package gitrepo

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"

	formatcfg "github.com/go-git/go-git/v5/plumbing/format/config"

	"blotter/ledger/disk"
)

// SetSetting writes a setting of this repository alone; an empty value takes
// it away. The key has two or three parts, as in Setting.
func (r *Repo) SetSetting(ctx context.Context, key, value string) error {
	if old, err := r.ownSetting(ctx, key); err == nil && old == value {
		return nil
	}
	defer func() { r.settings = sync.OnceValues(r.readSettings) }() // they are read anew
	if r.git == "" {
		return r.writeSetting(key, value)
	}
	if err := r.settingProgram(ctx, key, value); err != nil {
		return fmt.Errorf("write git's setting %s: %w", key, err)
	}
	return nil
}

// settingProgram lets git write the setting into a copy of its file, which
// then takes the file's place: git itself does not wait for the disk, and a
// power cut would leave all settings empty.
func (r *Repo) settingProgram(ctx context.Context, key, value string) error {
	if _, err := os.Lstat(r.ownFile() + ".lock"); err == nil {
		return ErrLocked
	}
	old, err := os.ReadFile(r.ownFile())
	if err != nil {
		return err
	}
	f, err := os.CreateTemp("", "blotter-config-*")
	if err != nil {
		return err
	}
	defer os.Remove(f.Name())
	if _, err = f.Write(old); err != nil {
		f.Close()
		return err
	}
	if err := f.Close(); err != nil {
		return err
	}
	args := []string{"config", "--file", f.Name(), key, value}
	if value == "" {
		args = []string{"config", "--file", f.Name(), "--unset-all", key}
	}
	if _, err := r.run(ctx, nil, args...); err != nil {
		return err
	}
	now, err := os.ReadFile(f.Name())
	if err != nil {
		return err
	}
	return disk.WriteFile(r.ownFile(), now)
}

// ownSetting is the value of a setting in this repository's own file.
func (r *Repo) ownSetting(ctx context.Context, key string) (string, error) {
	if r.git == "" {
		cfg, err := r.readOwnFile()
		if err != nil {
			return "", err
		}
		section, sub, name := settingParts(key)
		if sub != "" {
			return cfg.Section(section).Subsection(sub).Option(name), nil
		}
		return cfg.Section(section).Option(name), nil
	}
	out, err := r.run(ctx, nil, "config", "--local", "--get", key)
	var program *ProgramError
	if errors.As(err, &program) && program.Code == 1 { // git's word for: not set
		return "", nil
	}
	return strings.TrimSuffix(string(out), "\n"), err
}

func (r *Repo) ownFile() string { return filepath.Join(r.common, "config") }

func (r *Repo) readOwnFile() (*formatcfg.Config, error) {
	b, err := os.ReadFile(r.ownFile())
	if err != nil {
		return nil, fmt.Errorf("read git's settings: %w", err)
	}
	cfg := formatcfg.New()
	if err := formatcfg.NewDecoder(bytes.NewReader(b)).Decode(cfg); err != nil {
		return nil, fmt.Errorf("read git's settings: %w", err)
	}
	return cfg, nil
}

// writeSetting is SetSetting without the git program.
func (r *Repo) writeSetting(key, value string) error {
	cfg, err := r.readOwnFile()
	if err != nil {
		return err
	}
	section, sub, name := settingParts(key)
	switch {
	case value != "":
		cfg.SetOption(section, sub, name, value)
	case sub != "":
		cfg.Section(section).Subsection(sub).RemoveOption(name)
	default:
		cfg.Section(section).RemoveOption(name)
	}
	var b bytes.Buffer
	if err := formatcfg.NewEncoder(&b).Encode(cfg); err != nil {
		return fmt.Errorf("write git's setting %s: %w", key, err)
	}
	if err := disk.WriteFile(r.ownFile(), b.Bytes()); err != nil {
		return fmt.Errorf("write git's setting %s: %w", key, err)
	}
	return nil
}

// settingParts parts a key as git does: section, subsection, name.
func settingParts(key string) (section, sub, name string) {
	section, rest, _ := strings.Cut(key, ".")
	if i := strings.LastIndexByte(rest, '.'); i >= 0 {
		return section, rest[:i], rest[i+1:]
	}
	return section, "", rest
}

// HooksDir is where git looks for hooks: core.hooksPath, relative to the top
// of the work tree, or hooks/ in the common git folder.
func (r *Repo) HooksDir() (string, error) {
	path, err := r.Setting("core.hookspath")
	if err != nil {
		return "", err
	}
	if path == "" {
		return filepath.Join(r.common, "hooks"), nil
	}
	if rest, ok := strings.CutPrefix(path, "~/"); ok {
		return filepath.Join(homeOf(r.environ), rest), nil
	}
	if filepath.IsAbs(path) {
		return path, nil
	}
	base := r.top
	if base == "" {
		base = r.gitDir
	}
	return filepath.Join(base, path), nil
}
