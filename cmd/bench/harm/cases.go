package harm

import "path/filepath"

// A command is one that writes, as a person types it.
type command struct {
	name    string
	args    []string
	dir     string     // where it is typed, in the place; "" is the ledger
	prepare [][]string // typed before, unharmed, in the ledger; "git" begins a line for git, which may say no
	noGit   string     // why it is not tried without the git program
	done    string     // words by which it says that it is done; typed again before they were said it does no more than once
	slow    bool       // takes many seconds: a few kills are enough
	parts   string     // a file that is not there between its steps: what it holds is under another number, entered
}

var (
	freezer   = []string{"open", "freezer", "1,2"}
	mounting  = []string{"open", "mounting", "1"}
	logger    = "time,temp\n2026-10-30 08:00,-31\n2026-10-31 08:00,-31\n2026-11-03 08:00,-31\n"
	register  = "Collector,Date,Country\nSigne Rask,3.vii.2025,Norway\nSigne Rask,4.vii.2025,Norway\n"
	mapping   = "columns:\n  - column: Collector\n    field: collector\n  - column: Date\n    field: date\n  - column: Country\n    field: place.country\n"
	gathering = "collector: Signe Rask\ndate: 5.vii.2025\ncountry: Norway\n---\nname: Carex nigra\n---\nname: Carex rostrata\n"
	lost      = []string{"withdraw", "1", "--is", "lost", "--why", "not in its folder", "--yes"}
)

const shared = "sharing goes through the git program"

// commands are every command that writes. Each is typed at the ledger that
// stock makes, which holds four sheets, a draft, and an edit not yet entered.
var commands = []command{
	{name: "new", args: []string{"new", "collector=Signe Rask", "date=14.vii.2025", "country=Norway", "name=Trollius europaeus"}},
	{name: "new-from", args: []string{"new", "--from", "../day.txt", "--yes"}},
	{name: "set", args: []string{"set", "1,2", "substrate=Moraine"}},
	{name: "set-why", args: []string{"set", "1", "date=3.vii.2025", "--why", "label seen again"}},
	{name: "determine", args: []string{"determine", "1", "Ranunculus repens", "--by", "Signe Rask"}},
	{name: "determine-many", args: []string{"determine", "1..3", "Ranunculus repens", "--by", "Signe Rask"}},
	{name: "typestatus", args: []string{"typestatus", "1", "Isotype", "--of", "Ranunculus pumilus Wahlenb.", "--published", "Fl. Lapp.: 1 (1812)", "--by", "Signe Rask", "--basis", "verified"}},
	{name: "rename", args: []string{"rename", "Ranunculus repens L.", "Ranunculus acris L.", "--source", "regional flora, 3rd ed.", "--yes"}},
	{name: "note", args: []string{"note", "1", "runners", "--by", "Signe Rask"}},
	{name: "accept", args: []string{"accept", "3", "elevation-unit", "--why", "the label has no unit"}},
	{name: "withdraw", args: lost},
	{name: "found", prepare: [][]string{lost}, args: []string{"found", "1", "--why", "in another cover"}},
	{name: "renumber", args: []string{"renumber", "1", "99", "--why", "the sheet bears 99"}},
	{name: "swap", prepare: [][]string{freezer}, args: []string{"swap", "1", "3", "--why", "labels stuck on each other's sheets"}},
	{name: "tidy", args: []string{"tidy", "--yes"}, noGit: "git brings the files out of form", prepare: [][]string{
		{"git", "mv", "specimens/000/00/LK7-0000001.yaml", "specimens/LK7-0000001.yaml"}, {"git", "rm", "-q", "--cached", "record.schema.json"},
		{"git", "commit", "-qm", "Moved by hand", "--no-verify"}, {"git", "mv", "record.schema.json", "old.json"}}},
	{name: "import", args: []string{"import", "../register.csv", "--map", "../map.yaml", "--yes"}},
	{name: "open", args: freezer},
	{name: "add", prepare: [][]string{freezer}, args: []string{"add", "freezer-2026-001", "3"}},
	{name: "log", prepare: [][]string{freezer}, args: []string{"log", "freezer-2026-001", "in"}},
	{name: "close", prepare: [][]string{freezer, {"log", "freezer-2026-001", "in"}}, args: []string{"close", "freezer-2026-001", "--from", "../logger.csv"}},
	{name: "incident", args: []string{"incident", "1,2", "--place", "workroom", "--what", "water"}},
	{name: "enter", args: []string{"enter"}},
	{name: "undo", done: "Taken back.", prepare: [][]string{mounting}, args: []string{"undo", "--yes"}},
	{name: "undo-two", done: "Taken back.", prepare: [][]string{{"set", "1", "substrate=Gravel"}, {"set", "1", "substrate=Moraine", "--why", "seen again"}}, args: []string{"undo", "2", "--yes"}},
	{name: "release", prepare: [][]string{{"enter"}}, args: []string{"release", "2026-1", "../register.csv", "--why", "Spring"}},
	{name: "undo-numbers", done: "Taken back.", prepare: [][]string{{"renumber", "1", "99", "--why", "the sheet bears 99"}}, args: []string{"undo", "--yes"}},
	{name: "undo-swap", done: "Taken back.", prepare: [][]string{freezer, {"swap", "1", "3", "--why", "labels stuck on each other's sheets"}}, args: []string{"undo", "--yes"}},
	{name: "share", args: []string{"share", "--yes"}, prepare: with(peer("set", "2", "substrate=Gravel"), mounting), noGit: shared},
	{name: "share-one-sheet", args: []string{"share", "--yes"}, noGit: shared, prepare: with(peer("determine", "1", "Ranunculus repens", "--by", "Tiril Aune"),
		[]string{"determine", "1", "Trollius europaeus", "--by", "Signe Rask"}, []string{"set", "1", "substrate=Moraine"})},
	{name: "settle", args: []string{"set", "2", "substrate=Gravel"}, noGit: shared, prepare: undecided},
	{name: "share-numbers", args: []string{"share", "--yes"}, noGit: shared, parts: "ledger/specimens/000/00/LK7-0000005.yaml", prepare: with(peer("new", "collector=Signe Rask", "date=14.vii.2025", "country=Norway", "name=Trollius europaeus"),
		[]string{"git", "clean", "-qfd", "specimens"}, []string{"new", "collector=Tiril Aune", "date=15.vii.2025", "country=Norway", "name=Ranunculus repens"})},
	{name: "enter-settled", args: []string{"enter"}, noGit: shared, prepare: with(undecided, []string{"git", "checkout", "-q", "--ours", "specimens/000/00/LK7-0000002.yaml"})},
	{name: "share-new", args: []string{"share", "--with", "../other.git", "--new", "--yes"}, noGit: shared},
	{name: "join", prepare: [][]string{{"share", "--with", "../other.git", "--new", "--yes"}}, dir: ".", args: []string{"join", "other.git", "peer"}, noGit: shared},
	{name: "publish", args: []string{"publish"}},
	{name: "publish-again", prepare: [][]string{{"publish"}, {"determine", "1", "Ranunculus repens", "--by", "Signe Rask"}}, args: []string{"publish"}},
	{name: "export-csv", prepare: [][]string{{"export", "csv", "--to", "../out.csv"}, {"set", "1", "substrate=Moraine"}}, args: []string{"export", "csv", "--to", "../out.csv", "--yes"}},
	{name: "export-dwca", args: []string{"export", "dwca", "--to", "../out.zip"}},
	{name: "export-xlsx", args: []string{"export", "xlsx", "--to", "../out.xlsx"}},
	{name: "print-labels", args: []string{"print", "labels", "1..2", "--to", "../labels.pdf", "--yes"}},
	{name: "print-covers", args: []string{"print", "covers", "1..3", "--to", "../covers.html", "--yes"}},
	{name: "mirror", args: []string{"mirror", "--to", "../public.git"}},
	{name: "mirror-again", prepare: [][]string{{"mirror", "--to", "../public.git"}, {"set", "1", "substrate=Moraine"}}, args: []string{"mirror", "--to", "../public.git"}},
	{name: "backup", args: []string{"backup", "--to", "../all.bundle", "--yes"}},
	{name: "restore", prepare: [][]string{{"backup", "--to", "../all.bundle"}}, dir: ".", args: []string{"restore", "all.bundle", "again"}},
	{name: "init", dir: ".", args: []string{"init", "fresh", "--code", "LK7", "--name", "Lauvkroken Museum"}},
	{name: "hooks", args: []string{"hooks", "install"}},
	{name: "verify", args: []string{"verify"}},
	{name: "iam", args: []string{"iam", "Tiril Aune"}},
	{name: "demo-practice", dir: ".", args: []string{"demo", "museum", "--practice"}},
	{name: "demo", dir: ".", args: []string{"demo", "museum", "--no-serve"}, slow: true},
}

// Unharmed are the commands that enter or make something and are not killed,
// and why.
var Unharmed = map[string]string{
	"edit":  "a person and an editor are in the middle of it; what it enters goes the way of set",
	"serve": "it writes what publish writes, into a folder that may be thrown away",
}

// Killed are the commands that are killed.
func Killed() map[string]bool {
	all := map[string]bool{}
	for _, k := range commands {
		all[k.args[0]] = true
	}
	return all
}

// peer makes a second copy of the ledger, where somebody types a command and
// shares.
func peer(args ...string) [][]string {
	return [][]string{
		{"share", "--with", "../other.git", "--new", "--yes"}, {"join", "../other.git", "../peer"},
		append([]string{"--ledger", "../peer"}, args...), {"--ledger", "../peer", "share", "--yes"}}
}

// undecided is a ledger in which two readings of one field stand.
var undecided = with(peer("set", "2", "substrate=Gravel"), []string{"set", "2", "substrate=Moraine"}, []string{"git", "fetch", "-q"}, []string{"git", "merge", "-q", "-m", "Both", "origin/main"})

func with(steps [][]string, more ...[]string) [][]string {
	return append(steps[:len(steps):len(steps)], more...)
}

// title is the name of a command's case with or without the git program.
func (k command) title(git bool) string {
	if git {
		return k.name + "+git"
	}
	return k.name + "-git"
}

// at is the folder in which it is typed.
func (k command) at(place string) string {
	if k.dir != "" {
		return filepath.Join(place, k.dir)
	}
	return filepath.Join(place, "ledger")
}
