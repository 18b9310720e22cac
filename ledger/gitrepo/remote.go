package gitrepo

import (
	"context"
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"sync"
	"time"
)

// Other is another copy of the ledger, a remote in git's words: a folder, a
// file, or an address at another machine.
type Other struct {
	Name    string // git's name for it, for example origin
	Address string
	Known   bool // it stands in this repository's settings
}

// Others lists the copies that the settings know, in order of name.
func (r *Repo) Others() ([]Other, error) {
	s, err := r.settings()
	if err != nil {
		return nil, err
	}
	var all []Other
	for _, kv := range s {
		name, ok := strings.CutPrefix(kv.key, "remote.")
		if name, ok2 := strings.CutSuffix(name, ".url"); ok && ok2 && kv.value != "" &&
			!slices.ContainsFunc(all, func(o Other) bool { return o.Name == name }) {
			all = append(all, Other{name, kv.value, true})
		}
	}
	slices.SortFunc(all, func(a, b Other) int { return strings.Compare(a.Name, b.Name) })
	return all, nil
}

// Usual is the copy that is meant when none is named: that of the current
// branch, else origin, else the only one. false: there is none.
func (r *Repo) Usual() (Other, bool, error) {
	all, err := r.Others()
	if err != nil {
		return Other{}, false, err
	}
	branch, err := r.Branch()
	if err != nil {
		return Other{}, false, err
	}
	of, err := r.Setting("branch." + branch + ".remote")
	if err != nil {
		return Other{}, false, err
	}
	for _, name := range []string{of, "origin"} {
		if i := slices.IndexFunc(all, func(o Other) bool { return o.Name == name }); i >= 0 && name != "" {
			return all[i], true, nil
		}
	}
	if len(all) == 1 {
		return all[0], true, nil
	}
	return Other{}, false, nil
}

// OtherAt is the copy at an address: the known one, or a new one under a free
// name, which Remember puts into the settings.
func (r *Repo) OtherAt(address string) (Other, error) {
	all, err := r.Others()
	if err != nil {
		return Other{}, err
	}
	taken := map[string]bool{}
	for _, o := range all {
		if o.Address == address {
			return o, nil
		}
		taken[o.Name] = true
	}
	if len(all) == 0 {
		return Other{Name: "origin", Address: address}, nil
	}
	word := otherName(address)
	for n := 1; ; n++ {
		name := word
		if n > 1 {
			name = fmt.Sprintf("%s-%d", word, n)
		}
		if !taken[name] {
			return Other{Name: name, Address: address}, nil
		}
	}
}

var notInName = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`[^a-z0-9]+`) })

// otherName is a name for a copy, made of the last part of its address.
func otherName(address string) string {
	address = strings.TrimRight(address, `/\`)
	word := address[strings.LastIndexAny(address, `/\:`)+1:]
	for _, end := range []string{".git", ".bundle", "-shared"} {
		word = strings.TrimSuffix(word, end)
	}
	word = strings.Trim(notInName().ReplaceAllString(strings.ToLower(word), "-"), "-")
	if word == "" || word == "origin" || word == "head" {
		return "other"
	}
	return word
}

// Remember puts a copy into the settings. The first one becomes that of the
// current branch.
func (r *Repo) Remember(ctx context.Context, o Other) (Other, error) {
	if o.Known {
		return o, nil
	}
	branch, err := r.Branch()
	if err != nil {
		return o, err
	}
	set := [][2]string{{"remote." + o.Name + ".url", o.Address}, {"remote." + o.Name + ".fetch", "+refs/heads/*:refs/remotes/" + o.Name + "/*"}}
	if o.Name == "origin" && branch != "" {
		set = append(set, [2]string{"branch." + branch + ".remote", o.Name}, [2]string{"branch." + branch + ".merge", "refs/heads/" + branch})
	}
	for _, kv := range set {
		if err := r.SetSetting(ctx, kv[0], kv[1]); err != nil {
			return o, err
		}
	}
	o.Known = true
	return o, nil
}

// reach runs a git command that goes to another copy. Without a person at a
// terminal nothing is asked.
func (r *Repo) reach(ctx context.Context, asks bool, extra []string, args ...string) ([]byte, error) {
	if !asks {
		extra = append(extra, "GIT_TERMINAL_PROMPT=0")
		ssh, err := r.Setting("core.sshcommand")
		if err == nil && ssh == "" && getenv(r.environ, "GIT_SSH_COMMAND") == "" && getenv(r.environ, "GIT_SSH") == "" {
			extra = append(extra, "GIT_SSH_COMMAND=ssh -o BatchMode=yes")
		}
	}
	begun := time.Now()
	out, err := r.runWith(ctx, extra, nil, args...)
	if err != nil && r.gitDir != "" && stopped(ctx, err) { // it was at what others have: its locks stop the next one
		err = errors.Join(err, r.removeDeadLocks(context.WithoutCancel(ctx), begun, true))
	}
	return out, reachError(err)
}

// Receive brings everything that another copy has into this repository, under
// refs/remotes/NAME/ and, of releases, a place of its own (ReleasesOf): no
// branch, release or file of this copy changes. The error is a *ReachError when
// git could not do it.
func (r *Repo) Receive(ctx context.Context, o Other, asks bool) error {
	from := o.Address
	if o.Known {
		from = o.Name
	}
	r.watch() // until something is entered by it
	var err error
	for try := range receiveTries {
		if err = r.receive(ctx, from, o, asks); !occupied(err) {
			break
		}
		// One that was killed a moment ago may still end its work.
		select {
		case <-ctx.Done():
		case <-time.After(time.Duration(try+1) * 200 * time.Millisecond):
		}
	}
	r.pool.drop()
	if err != nil {
		return fmt.Errorf("receive from %s: %w", o.Address, err)
	}
	return nil
}

// receiveTries is how often a Receive is begun anew while another git program
// is at work: three seconds in all.
const receiveTries = 5

func occupied(err error) bool {
	var reach *ReachError
	return errors.As(err, &reach) && reach.Kind == Occupied
}

func (r *Repo) receive(ctx context.Context, from string, o Other, asks bool) error {
	_, err := r.reach(ctx, asks, nil, "fetch", "--quiet", "--prune", "--no-tags", "--no-recurse-submodules", "--end-of-options",
		from, "+refs/heads/*:refs/remotes/"+o.Name+"/*", "+refs/tags/*:"+releasesRefs+o.Name+"/*")
	return err
}

// TipOf is the branch of another copy that goes with ours, and its last
// revision, as received last; "" for a copy that is empty: then the branch is
// the one it is to get.
func (r *Repo) TipOf(ctx context.Context, o Other) (branch, id string, err error) {
	own, err := r.Branch()
	if err != nil {
		return "", "", err
	}
	refs, err := r.Refs(ctx)
	if err != nil {
		return "", "", err
	}
	at := map[string]string{}
	var names []string
	for _, ref := range refs {
		if name, ok := strings.CutPrefix(ref.Name, "refs/remotes/"+o.Name+"/"); ok && name != "HEAD" {
			at[name] = ref.Commit
			names = append(names, name)
		}
	}
	head := ""
	if out, err := r.run(ctx, nil, "symbolic-ref", "--quiet", "refs/remotes/"+o.Name+"/HEAD"); err == nil {
		head = strings.TrimPrefix(strings.TrimSpace(string(out)), "refs/remotes/"+o.Name+"/")
	}
	candidates := []string{head, own, "main", "master"}
	if len(names) == 1 {
		candidates = append(candidates, names[0])
	}
	for _, name := range candidates {
		if id, ok := at[name]; ok {
			return name, id, nil
		}
	}
	if len(names) > 0 {
		return "", "", fmt.Errorf("%s: %w", o.Address, ErrWhichBranch)
	}
	return own, "", nil
}

// ErrWhichBranch is about another copy with several branches of which none
// goes with ours.
var ErrWhichBranch = errors.New("it holds several lines of work, and none is named as this one is")

// Received writes down that another copy is now at a revision, where git could
// not see that itself.
func (r *Repo) Received(ctx context.Context, o Other, branch, id string) error {
	_, err := r.run(ctx, nil, "update-ref", "refs/remotes/"+o.Name+"/"+branch, id)
	return err
}

// JudgedVariable is set for the hooks of a Send whose entries were judged
// already, so that they are not judged twice.
const JudgedVariable = "BLOTTER_JUDGED"

// Send makes a branch of another copy lead to revision id, and gives it
// releases that it lacks, by name. It is refused, and nothing changes there,
// when that would take away what others sent: the error is ErrMoved. The other
// end's own words come in a *Refusal.
func (r *Repo) Send(ctx context.Context, o Other, branch, id string, releases []string, asks bool) error {
	to := o.Address
	if o.Known {
		to = o.Name
	}
	args := []string{"push", "--quiet", "--porcelain", "--no-recurse-submodules", "--no-follow-tags", to, id + ":refs/heads/" + branch}
	for _, name := range releases {
		args = append(args, "refs/tags/"+name+":refs/tags/"+name)
	}
	out, err := r.reach(ctx, asks, []string{JudgedVariable + "=" + id}, args...)
	if err == nil {
		err = r.Received(ctx, o, branch, id)
		for _, name := range releases {
			if err == nil {
				_, err = r.run(ctx, nil, "update-ref", releasesRefs+o.Name+"/"+name, "refs/tags/"+name)
			}
		}
		return err
	}
	var reach *ReachError
	if errors.As(err, &reach) {
		switch why := rejection(string(out)); {
		case why == "" && reach.Kind == Unknown && reach.code == 1:
			return &Refusal{Words: reach.Lines(), Here: true}
		case why == "":
		case strings.Contains(why, "currently checked out"):
			return ErrWorkedIn
		case strings.Contains(why, "fetch first"), strings.Contains(why, "non-fast-forward"), strings.Contains(why, "stale info"),
			strings.Contains(why, "failed to update ref"), strings.Contains(why, "cannot lock ref"), strings.Contains(why, "reference already exists"):
			return ErrMoved
		default:
			return &Refusal{Words: theirWords(reach.Text), Why: why}
		}
	}
	return fmt.Errorf("send to %s: %w", o.Address, err)
}

// ErrWorkedIn is about another copy in which somebody works: git puts nothing
// under a person's hands.
var ErrWorkedIn = errors.New("somebody works in that copy itself")

// Refusal is what a hook said to what was sent: of the other end, or Here of
// this copy.
type Refusal struct {
	Words []string
	Why   string // git's own reason, for example "pre-receive hook declined"
	Here  bool
}

func (e *Refusal) Error() string { return "refused: " + strings.Join(e.Words, "; ") }

// rejection is git's reason in a line of push --porcelain that begins with !;
// "" when there is none.
func rejection(out string) string {
	for line := range strings.Lines(out) {
		if f := strings.Split(strings.TrimSpace(line), "\t"); len(f) == 3 && f[0] == "!" {
			return f[2]
		}
	}
	return ""
}

// theirWords are the lines of the other end among git's.
func theirWords(text string) (words []string) {
	for line := range strings.Lines(text) {
		if said, ok := strings.CutPrefix(line, "remote: "); ok {
			if said = strings.TrimRight(said, " \r\n\x1b[K"); strings.TrimSpace(said) != "" {
				words = append(words, said)
			}
		}
	}
	return words
}

// AskTip asks another copy where a branch of it is, and brings nothing; "" when
// it has no such branch.
func (r *Repo) AskTip(ctx context.Context, o Other, branch string, asks bool) (string, error) {
	from := o.Address
	if o.Known {
		from = o.Name
	}
	out, err := r.reach(ctx, asks, nil, "ls-remote", "--quiet", "--", from, "refs/heads/"+branch)
	if err != nil {
		return "", fmt.Errorf("ask %s: %w", o.Address, err)
	}
	id, _, _ := strings.Cut(string(out), "\t")
	return id, nil
}
