package cluster

import (
	_ "embed"
	"text/template"
)

//go:embed slurm.sh.tmpl
var slurm string

//go:embed parallel.sh.tmpl
var parallel string

//go:embed kubernetes.yaml.tmpl
var kubernetes string

// queues are the texts of jobs, by the names of queues.
var queues = map[string]*template.Template{
	"slurm":      parsed("slurm", slurm),
	"parallel":   parsed("parallel", parallel),
	"kubernetes": parsed("kubernetes", kubernetes),
}
