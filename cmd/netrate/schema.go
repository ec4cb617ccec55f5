package main

import (
	"github.com/spf13/pflag"

	"netrate/cmd/netrate/internal/desk"
	"netrate/scenarios"
)

func schemaVerb() desk.Verb {
	return desk.Verb{
		Name: "schema", About: "print the JSON schema of scenario files, for editors",
		More: `An editor that knows YAML schemas helps with writing, if the first line of the file is
  # yaml-language-server: $schema=./netrate.schema.json
and the schema is there: netrate schema > netrate.schema.json`,
		Prepare: func(*pflag.FlagSet) desk.Action { return schema },
	}
}

func schema(e desk.Env, args []string) error {
	if err := noArguments("schema", args); err != nil {
		return err
	}
	_, err := e.Out.Write(scenarios.Schema())
	return err
}
