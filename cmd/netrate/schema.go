package main

import (
	"github.com/spf13/pflag"

	"netrate/scenarios"
)

func schemaVerb() verb {
	return verb{
		name: "schema", about: "print the JSON schema of scenario files, for editors",
		more: `An editor that knows YAML schemas helps with writing, if the first line of the file is
  # yaml-language-server: $schema=./netrate.schema.json
and the schema is there: netrate schema > netrate.schema.json`,
		prepare: func(*pflag.FlagSet) action { return schema },
	}
}

func schema(e env, args []string) error {
	if err := noArguments("schema", args); err != nil {
		return err
	}
	_, err := e.out.Write(scenarios.Schema())
	return err
}
