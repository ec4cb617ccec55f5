package scenarios

// file is a scenario file as it is written.
type file struct {
	Name       *name       `yaml:"name" jsonschema_description:"title of the scenario"`
	Question   *sentence   `yaml:"question,omitempty" jsonschema_description:"what the scenario is to answer"`
	Base       *name       `yaml:"base,omitempty" jsonschema_description:"what the line of the file is called beside its variants in compare, such as an offer; base if not given"`
	Target     *speed      `yaml:"target,omitempty" jsonschema_description:"net rate that a shift is to reach, in good envelopes an hour: run, of one line, and compare say how many do"`
	Line       *line       `yaml:"line,omitempty" jsonschema_description:"the machine"`
	Lines      []groupLine `yaml:"lines,omitempty" jsonschema_description:"several machines that one crew attends to, instead of line" jsonschema:"minItems=1,maxItems=20"`
	Policy     *linePolicy `yaml:"policy,omitempty" jsonschema_description:"responses to faults at every station that has no policy of its own; stop where nothing is said"`
	Crew       *crew       `yaml:"crew" jsonschema_description:"the people who attend to the line"`
	Work       *work       `yaml:"work,omitempty" jsonschema_description:"what is simulated; not needed where there are jobs"`
	Jobs       []job       `yaml:"jobs,omitempty" jsonschema_description:"what is made: envelopes and what goes into them" jsonschema:"minItems=1,maxItems=200"`
	Changeover *changeover `yaml:"changeover,omitempty" jsonschema_description:"what it takes to set the line up for the next job; nothing if not given"`
	Calendar   *calendar   `yaml:"calendar,omitempty" jsonschema_description:"when people work: the same every week"`
	Season     *season     `yaml:"season,omitempty" jsonschema_description:"the number of sets of each job, week after week"`
	Plan       *plan       `yaml:"plan,omitempty" jsonschema_description:"jobs with dates: netrate plan says which line does which of them, and when"`
	Costs      *costs      `yaml:"costs,omitempty" jsonschema_description:"what the line costs to have and to run: compare then says what its variants are worth, and season what a season costs"`
	Design     *design     `yaml:"design,omitempty" jsonschema_description:"what may be bought for the line, with prices, and a goal: netrate design finds the best of all combinations"`
	Run        *run        `yaml:"run,omitempty" jsonschema_description:"how it is simulated"`
	Variants   []variant   `yaml:"variants,omitempty" jsonschema_description:"the same line with some changes, to be compared with it" jsonschema:"maxItems=50"`
}

type line struct {
	Speed      *speed      `yaml:"speed,omitempty" jsonschema_description:"speed asked for; the line runs at the lowest of this and the rated speeds of its stations"`
	Restart    *duration   `yaml:"restart" jsonschema_description:"time from the end of the last open stop to the first cycle; 0 s if there is none"`
	Slow       *slow       `yaml:"slow,omitempty" jsonschema_description:"when it runs slower than its speed: never if not given"`
	Days       *dayFactors `yaml:"days,omitempty" jsonschema_description:"good days and bad days, and drift within a day; all alike if not given"`
	Source     *sentence   `yaml:"source,omitempty" jsonschema_description:"where the speed and the restart time come from; each station has its own"`
	Attributes []attribute `yaml:"attributes,omitempty" jsonschema_description:"what some sets have and others do not: several feeders may be only for the sets that have one" jsonschema:"maxItems=20"`
	Stations   []station   `yaml:"stations" jsonschema_description:"in order along the track, the delivery last"`
}

type run struct {
	Seed      *seed         `yaml:"seed,omitempty" jsonschema_description:"the random seed: the same seed gives the same result; 1 if not given"`
	Precision *probability  `yaml:"precision,omitempty" jsonschema_description:"the run ends when the 95% interval of the net rate is within this share of it; 0.5% if not given"`
	Min       *replications `yaml:"min,omitempty" jsonschema_description:"replications at least; 1000 if not given"`
	Max       *replications `yaml:"max,omitempty" jsonschema_description:"replications at most; 20000 if not given"`
}
