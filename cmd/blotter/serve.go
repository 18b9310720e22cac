package main

import (
	"context"
	"errors"
	"io/fs"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"github.com/fsnotify/fsnotify"

	"blotter/render"
)

func serveCommand() *command {
	return &command{
		Name: "serve", Family: famMake,
		Says:  "Shows the ledger as it lies in the folder, as web pages on this computer alone.",
		Notes: []string{"What is written but not yet entered is shown and marked. A page follows when its file is saved; reload it."},
		Examples: []example{
			{"blotter serve", "prints the address; Ctrl-C ends it"},
			{"blotter serve --port 8080", "at that port"},
			{"blotter serve --port 0", "at any free port"},
		},
		Flags: []*flag{flagPort, flagNoCache},
		Kin:   []string{"publish", "edit"},
		Run:   runServe,
	}
}

// usualPort is tried when --port does not say; a free one is taken when it is
// not to be had.
const usualPort = 4180

func runServe(ctx context.Context, c *call) error {
	if len(c.args) > 0 {
		return misuse("serve takes no arguments; %q is too much", c.args[0])
	}
	d, err := c.desk()
	if err != nil {
		return err
	}
	if d.repo == nil {
		return stuck("this folder has no git repository, so there is no history to show")
	}
	s := &showing{desk: d, dir: filepath.Join(d.repo.StateDir(), "serve")}
	if err := s.build(ctx); err != nil {
		return err
	}
	return s.serve(ctx, "")
}

// showing is the work tree as a site that follows its files.
type showing struct {
	desk   *desk
	dir    string
	stale  atomic.Bool // something changed since the last build
	mu     sync.Mutex  // one build at a time
	report render.Report
}

// build makes the site of the work tree anew where it changed.
func (s *showing) build(ctx context.Context) error {
	c := s.desk.call.in(s.desk.Dir)
	defer c.close()
	d, err := c.desk() // its settings may have changed too
	if err != nil {
		return err
	}
	tip, err := d.head(ctx)
	if err != nil {
		return err
	}
	in, _, err := d.siteInput(ctx, tip, true, false)
	if err != nil {
		return err
	}
	if open, err := d.repo.Unentered(ctx); err == nil && open {
		in.Site = render.Revision{When: in.Site.When} // the folder is ahead of every revision
	}
	s.report, err = d.buildSite(ctx, in, s.dir)
	return err
}

// serve answers on loopback until the person ends it. page is shown first.
func (s *showing) serve(ctx context.Context, page string) error {
	listener, err := s.listen()
	if err != nil {
		return err
	}
	stop, err := s.watch(ctx)
	if err != nil {
		s.desk.tell("files are not watched (%v); end and start again to see changes", err)
	} else {
		defer stop()
	}
	server := &http.Server{Handler: s.handler(ctx), ReadHeaderTimeout: 5 * time.Second}
	s.desk.say("http://%s/%s", listener.Addr(), page)
	s.desk.say("%s shown. Ctrl-C ends it.", count(s.report.Sheets, "sheet"))
	ended := make(chan error, 1)
	go func() { ended <- server.Serve(listener) }()
	select {
	case <-ctx.Done():
		server.Close()
		return nil
	case err := <-ended:
		if errors.Is(err, http.ErrServerClosed) {
			return nil
		}
		return stuck("%v", err)
	}
}

func (s *showing) listen() (net.Listener, error) {
	port, given := usualPort, s.desk.opts.given("port")
	if given {
		n, err := strconv.Atoi(s.desk.opts.text("port"))
		if err != nil || n < 0 || n > 65535 {
			return nil, misuse("%q is no port: a number from 0 to 65535", s.desk.opts.text("port"))
		}
		port = n
	}
	l, err := net.Listen("tcp", net.JoinHostPort("127.0.0.1", strconv.Itoa(port)))
	if err != nil && !given {
		l, err = net.Listen("tcp", "127.0.0.1:0")
	}
	if err != nil {
		return nil, stuck("%v", err).try("Another port: --port 0 takes a free one")
	}
	return l, nil
}

// handler gives the files of the site, after building what changed. It answers
// only to names of this computer, so that no page of another site can ask.
func (s *showing) handler(ctx context.Context) http.Handler {
	files := http.FileServer(http.Dir(s.dir))
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		host, _, err := net.SplitHostPort(r.Host)
		if err != nil {
			host = r.Host
		}
		if ip := net.ParseIP(host); host != "localhost" && (ip == nil || !ip.IsLoopback()) {
			http.Error(w, "this address answers to this computer alone", http.StatusForbidden)
			return
		}
		if fault := s.refresh(ctx); fault != "" {
			http.Error(w, fault, http.StatusInternalServerError)
			return
		}
		w.Header().Set("Cache-Control", "no-store")
		s.file(w, r, files)
	})
}

// file gives one file, and the page of its own for what is not there.
func (s *showing) file(w http.ResponseWriter, r *http.Request, files http.Handler) {
	name := filepath.Join(s.dir, filepath.FromSlash(strings.TrimPrefix(filepath.ToSlash(filepath.Clean("/"+r.URL.Path)), "/")))
	if _, err := os.Stat(name); errors.Is(err, fs.ErrNotExist) {
		if page, err := os.ReadFile(filepath.Join(s.dir, "404.html")); err == nil {
			w.Header().Set("Content-Type", "text/html; charset=utf-8")
			w.WriteHeader(http.StatusNotFound)
			w.Write(page)
			return
		}
	}
	files.ServeHTTP(w, r)
}

// refresh builds what changed since the last request; what went wrong is
// shown in place of the page.
func (s *showing) refresh(ctx context.Context) string {
	s.mu.Lock()
	defer s.mu.Unlock()
	if !s.stale.Swap(false) {
		return ""
	}
	if err := s.build(ctx); err != nil {
		s.stale.Store(true)
		return "The pages could not be made: " + err.Error()
	}
	return ""
}

// watch notes changes of any file of the ledger.
func (s *showing) watch(ctx context.Context) (stop func(), err error) {
	w, err := fsnotify.NewWatcher()
	if err != nil {
		return nil, err
	}
	if err := watchBelow(w, s.desk.root); err != nil {
		w.Close()
		return nil, err
	}
	go func() {
		for {
			select {
			case <-ctx.Done():
				return
			case e, ok := <-w.Events:
				if !ok {
					return
				}
				s.stale.Store(true)
				if e.Has(fsnotify.Create) {
					watchBelow(w, e.Name) // a new folder; of a file nothing comes of it
				}
			case _, ok := <-w.Errors:
				if !ok {
					return
				}
				s.stale.Store(true)
			}
		}
	}()
	return func() { w.Close() }, nil
}

// watchBelow watches a folder and every folder below it, but git's own and
// the published site.
func watchBelow(w *fsnotify.Watcher, dir string) error {
	return filepath.WalkDir(dir, func(p string, e fs.DirEntry, err error) error {
		if err != nil || !e.IsDir() {
			return nil
		}
		if e.Name() == ".git" || e.Name() == siteFolder || e.Name() == staffFolder {
			return filepath.SkipDir
		}
		return w.Add(p)
	})
}
