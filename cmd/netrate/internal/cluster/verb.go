package cluster

import (
	"fmt"
	"io"
	"regexp"
	"slices"
	"strings"
	"text/template"
	"unicode"
	"unicode/utf8"

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
	tasks, cores int
	image, claim string
}

func newFlags(set *pflag.FlagSet) *flags {
	o := &flags{}
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
	Tasks, Cores int
	Image, Claim string

	Asks   string   // the command line of the question
	Merges string   // that of its answer
	Args   []string // of the question
	Form   []string // of the answer
	Files  []file   // of the question
}

// Attempts returns how often a task is tried.
func (*job) Attempts() int { return attempts }

// Retries returns how often it is tried again.
func (*job) Retries() int { return attempts - 1 }

// Load returns how many tasks a machine has at a time, in percent of its cores.
func (j *job) Load() int { return max(1, 100/j.Cores) }

// file is one that the question reads.
type file struct{ Name, Text string }

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
	j, err := o.job(e, args[0], v, args[2:])
	if err != nil {
		return err
	}
	return text.Execute(e.Out, j)
}

// job returns the job of a question.
func (o *flags) job(e desk.Env, queue string, v desk.Verb, args []string) (*job, error) {
	parts, err := v.Parts(args)
	if err != nil {
		return nil, err
	}
	j := &job{Tasks: o.tasks, Cores: o.cores, Image: o.image, Claim: o.claim, Args: append([]string{v.Name}, parts.Question...), Form: parts.Form}
	if queue == "kubernetes" {
		if parts.Shards != "" {
			return nil, desk.Wrong("--shards: the shards are on the volume of --claim, in a directory of their own: leave it out")
		}
		err = j.carry(e, v, args)
	}
	into := "shards"
	if parts.Shards != "" {
		into = parts.Shards
		j.Args = append(j.Args, "--shards", into)
	}
	j.Asks, j.Merges = line(j.Args), line(append([]string{"merge", into}, j.Form...))
	return j, err
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
	for i, name := range names {
		if slices.Contains(names[:i], name) {
			continue
		}
		if !carried.MatchString(name) {
			return desk.Wrong("%s: want a file in this directory, which is carried in the manifest, with a name of letters without accents, digits, points, - and _", desk.ShownFile(name))
		}
		text, err := read(e, name)
		if err != nil {
			return err
		}
		if size += len(text); size > mostCarried {
			return desk.Wrong("the files are larger than 1 MB, which is what a ConfigMap holds: want smaller ones")
		}
		j.Files = append(j.Files, file{name, text})
	}
	return nil
}

// read returns the text of a file.
func read(e desk.Env, name string) (string, error) {
	from, err := e.Open(name)
	if err != nil {
		return "", err
	}
	text, err := io.ReadAll(from)
	_ = from.Close() // it was only read
	if err != nil {
		return "", fmt.Errorf("%s: %w", desk.Shown(name), err)
	}
	if !utf8.Valid(text) {
		return "", desk.Wrong("%s is not UTF-8, which is all that a manifest holds", desk.Shown(name))
	}
	return string(text), nil
}

// carried is what a ConfigMap may call a file, and does not begin as a flag does.
var carried = regexp.MustCompile(`^[._a-zA-Z0-9][-._a-zA-Z0-9]{0,252}$`)

// mostCarried is how much a ConfigMap holds, bytes.
const mostCarried = 1_000_000

var functions = template.FuncMap{"quoted": quoted, "exact": exact}

// quoted returns a text as YAML has it between quotes, whose escapes are those of Go.
func quoted(text string) string { return fmt.Sprintf("%q", text) }

// exact returns the text of a file as YAML has it, exactly: as its lines, of which the last may lack its
// end, or quoted where they could not be told from others.
func exact(text string) string {
	lines, ended := strings.CutSuffix(text, "\n")
	odd := func(r rune) bool { return r != '\n' && !unicode.IsPrint(r) }
	if strings.Trim(lines, " \n") == "" || strings.HasSuffix(lines, "\n") || strings.ContainsFunc(lines, odd) {
		return quoted(text)
	}
	head := "|2"
	if !ended {
		head = "|2-"
	}
	return head + "\n    " + strings.ReplaceAll(lines, "\n", "\n    ")
}

func parsed(name, text string) *template.Template {
	return template.Must(template.New(name).Funcs(functions).Parse(text))
}
