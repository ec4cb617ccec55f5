package cluster

import (
	"fmt"
	"io"
	"strings"
	"text/template"

	"github.com/spf13/pflag"

	"netrate/cmd/netrate/internal/desk"
)

// Verb returns the verb cluster. Other verbs are found by their names.
func Verb(named func(string) (desk.Verb, error)) desk.Verb {
	v := desk.Verb{
		Name: "cluster", Takes: "QUEUE VERB FILE…", About: "write the job that runs a question in shards: slurm, kubernetes or parallel",
		More: `The job runs netrate VERB FILE… in --tasks shards and then merges them; flags of its own
come before QUEUE, those of VERB after it. It is printed, to be read, changed and submitted:

  netrate cluster --tasks 50 slurm run line.yaml --reps 1000000 --report r.html > job.sh
  sh job.sh

Wrong input ends the whole job at once; what has failed otherwise is tried again, and
cannot count twice. Those who submit it look after queues, limits and accounts. See netrate
help clusters.`,
		Prepare: func(flags *pflag.FlagSet) desk.Action { newFlags(flags); return nil },
	}
	v.Plain = func(e desk.Env, args []string) error { return write(e, args, named) }
	return v
}

// flags is the command line of the verb.
type flags struct {
	tasks, cores, attempts int
	image, claim           string
}

func newFlags(set *pflag.FlagSet) *flags {
	o := &flags{attempts: attempts}
	set.IntVar(&o.tasks, "tasks", 10, "run in `N` shards")
	set.IntVar(&o.cores, "cores", 1, "give each task `N` cores")
	set.StringVar(&o.image, "image", "netrate:latest", "the container `IMAGE`, for kubernetes")
	set.StringVar(&o.claim, "claim", "netrate", "the persistent volume claim `NAME` of the files of shards, for kubernetes")
	return o
}

// attempts is how often a task is tried.
const attempts = 3

// Bounds of what is asked of a queue.
const (
	mostTasks = 10_000
	mostCores = 1000
)

// job is what the texts of jobs are made of.
type job struct {
	Tasks, Cores, Attempts int
	Image, Claim           string

	Asks   string   // the command line of the question
	Merges string   // that of its answer
	Args   []string // of the question
	Form   []string // of the answer
	Files  []file   // of the question
}

// file is one that the question reads, with its lines.
type file struct {
	Name  string
	Lines []string
}

func write(e desk.Env, args []string, named func(string) (desk.Verb, error)) error {
	set := desk.NewFlags("cluster")
	set.SetInterspersed(false)
	o := newFlags(set)
	if err := set.Parse(args); err != nil {
		return desk.Wrong("cluster: %v", err)
	}
	args = set.Args()
	switch {
	case o.tasks < 1 || o.tasks > mostTasks:
		return desk.Wrong("--tasks is %d, want 1 to %d", o.tasks, mostTasks)
	case o.cores < 1 || o.cores > mostCores:
		return desk.Wrong("--cores is %d, want 1 to %d", o.cores, mostCores)
	case len(args) < 2:
		return desk.Wrong("cluster takes a queue and a question: netrate cluster slurm run line.yaml")
	}
	text, known := queues[args[0]]
	if !known {
		return desk.Wrong("%q is not a queue that is known: want slurm, kubernetes or parallel", args[0])
	}
	v, err := named(args[1])
	if err != nil {
		return err
	}
	j := &job{Tasks: o.tasks, Cores: o.cores, Attempts: o.attempts, Image: o.image, Claim: o.claim}
	if j.Args, j.Form, err = v.Parts(args[2:]); err != nil {
		return err
	}
	j.Args = append([]string{v.Name}, j.Args...)
	if j.Asks, j.Merges = line(j.Args), line(append([]string{"merge", "shards"}, j.Form...)); args[0] == "kubernetes" {
		if err := j.carry(e, v, args[2:]); err != nil {
			return err
		}
	}
	return text.Execute(e.Out, j)
}

// line returns a command line of netrate.
func line(args []string) string {
	words := []string{"netrate"}
	for _, a := range args {
		words = append(words, desk.Quoted(a))
	}
	return strings.Join(words, " ")
}

// carry takes along the files that the question reads, which must lie beside each other.
func (j *job) carry(e desk.Env, v desk.Verb, args []string) error {
	names, err := v.Inputs(args)
	if err != nil {
		return err
	}
	size := 0
	for _, name := range names {
		if strings.ContainsAny(name, `/\`) || name == "-" {
			return desk.Wrong("%s: want a file in this directory, which is carried in the manifest", desk.ShownFile(name))
		}
		from, err := e.Open(name)
		if err != nil {
			return err
		}
		text, err := io.ReadAll(from)
		_ = from.Close() // it was only read
		if err != nil {
			return fmt.Errorf("%s: %w", desk.Shown(name), err)
		}
		if size += len(text); size > mostCarried {
			return desk.Wrong("the files are larger than 1 MB, which a ConfigMap holds: put them on the volume instead")
		}
		j.Files = append(j.Files, file{name, strings.Split(strings.TrimSuffix(string(text), "\n"), "\n")})
	}
	return nil
}

// mostCarried is how much a ConfigMap holds, bytes.
const mostCarried = 1_000_000

var functions = template.FuncMap{"quoted": func(s string) string { return fmt.Sprintf("%q", s) }}

func parsed(name, text string) *template.Template {
	return template.Must(template.New(name).Funcs(functions).Parse(text))
}
