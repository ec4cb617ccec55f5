package scenarios

// file is a scenario file as it is written.
type file struct {
	Name     *name       `yaml:"name" jsonschema_description:"title of the scenario"`
	Question *sentence   `yaml:"question,omitempty" jsonschema_description:"what the scenario is to answer"`
	Line     *line       `yaml:"line" jsonschema_description:"the machine"`
	Policy   *linePolicy `yaml:"policy,omitempty" jsonschema_description:"responses to faults at every station that has no policy of its own; stop where nothing is said"`
	Crew     *crew       `yaml:"crew" jsonschema_description:"the people who attend to the line"`
	Work     *work       `yaml:"work" jsonschema_description:"what is simulated"`
	Run      *run        `yaml:"run,omitempty" jsonschema_description:"how it is simulated"`
	Variants []variant   `yaml:"variants,omitempty" jsonschema_description:"the same line with some changes, to be compared with it" jsonschema:"maxItems=50"`
}

type line struct {
	Speed    *speed    `yaml:"speed,omitempty" jsonschema_description:"speed asked for; the line runs at the lowest of this and the rated speeds of its stations"`
	Restart  *duration `yaml:"restart" jsonschema_description:"time from the end of the last open stop to the first cycle; 0 s if there is none"`
	Stations []station `yaml:"stations" jsonschema_description:"in order along the track, the delivery last"`
}

type crew struct {
	Operators *operators `yaml:"operators" jsonschema_description:"number of people"`
	Walk      *duration  `yaml:"walk" jsonschema_description:"time from where an operator is to where he is called"`
	Attends   *attention `yaml:"attends,omitempty" jsonschema_description:"which hopper, bin or belt they see to first, stops before all: the most urgent if not given"`
}

type work struct {
	Shift *seconds `yaml:"shift" jsonschema_description:"length of one replication, such as 8 h"`
}

type run struct {
	Seed      *seed         `yaml:"seed,omitempty" jsonschema_description:"names the luck: the same seed gives the same result; 1 if not given"`
	Precision *probability  `yaml:"precision,omitempty" jsonschema_description:"the run ends when the 95% interval of the net rate is within this share of it; 0.5% if not given"`
	Min       *replications `yaml:"min,omitempty" jsonschema_description:"replications at least; 1000 if not given"`
	Max       *replications `yaml:"max,omitempty" jsonschema_description:"replications at most; 20000 if not given"`
}

// linePolicy is the responses to faults anywhere on the line.
type linePolicy struct {
	feederPolicy
	Flap            *answer `yaml:"flap,omitempty" jsonschema_description:"response to an envelope whose flap stays shut: stop or outsort"`
	EnvelopeMisfeed *forced `yaml:"envelope_misfeed,omitempty" jsonschema_description:"always stop: without an envelope the set can go nowhere"`
}

type feederPolicy struct {
	Misfeed *answer `yaml:"misfeed,omitempty" jsonschema_description:"response to a misfeed"`
	Double  *answer `yaml:"double,omitempty" jsonschema_description:"response to a double that is noticed, or to a false call"`
	Jam     *forced `yaml:"jam,omitempty" jsonschema_description:"always stop: a jam stops the line by itself"`
}

type inserterPolicy struct {
	Flap            *answer `yaml:"flap,omitempty" jsonschema_description:"response to an envelope whose flap stays shut: stop or outsort"`
	EnvelopeMisfeed *forced `yaml:"envelope_misfeed,omitempty" jsonschema_description:"always stop: without an envelope the set can go nowhere"`
	Jam             *forced `yaml:"jam,omitempty" jsonschema_description:"always stop: a jam stops the line by itself"`
}
