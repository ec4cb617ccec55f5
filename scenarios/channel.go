package scenarios

import "netrate/model"

// channel is a document channel as it is written.
type channel struct {
	stationHead
	Sheets     *rate                 `yaml:"sheets" jsonschema_description:"how fast sheets come, such as 36000/h, also while the line stands"`
	Pages      *pages                `yaml:"pages" jsonschema_description:"sheets of a document"`
	Buffer     *buffer               `yaml:"buffer" jsonschema_description:"gathered documents that can wait for the track"`
	Hopper     *documentHopper       `yaml:"hopper,omitempty" jsonschema_description:"its paper; without end if not given"`
	Lots       *lots                 `yaml:"lots,omitempty" jsonschema_description:"what lots its sheets come in, some worse than others; all alike if not given"`
	Misfeed    *uncertainProbability `yaml:"misfeed" jsonschema_description:"probability that a sheet does not come"`
	Double     *uncertainProbability `yaml:"double" jsonschema_description:"probability that two sheets come for one"`
	Jam        *uncertainProbability `yaml:"jam" jsonschema_description:"probability that a sheet jams"`
	Noticed    *uncertainProbability `yaml:"noticed,omitempty" jsonschema_description:"share of the misfeeds that are noticed; 100% if not given"`
	Caught     *uncertainProbability `yaml:"caught,omitempty" jsonschema_description:"share of the doubles that are noticed; 100% if not given"`
	FalseCalls *uncertainProbability `yaml:"false_calls,omitempty" jsonschema_description:"share of the good sheets that are taken for doubles; 0 if not given"`
	Stream     *stream               `yaml:"stream" jsonschema_description:"what its documents are called, as a stream"`
	Clear      *feedingClear         `yaml:"clear" jsonschema_description:"an operator's time for clearing a fault, after the walk"`
	Policy     *feederPolicy         `yaml:"policy,omitempty" jsonschema_description:"responses to its faults, instead of those of the line"`
}

// whyNeeded says what pages are for, which jobs have too.
func (*channel) whyNeeded(key string) string {
	if key != "pages" {
		return ""
	}
	return ": give sheets of a document, such as 2, for the line as it stands; a job has its own in their place"
}

func (h *channel) Build(policy Policy) model.Station {
	onMisfeed, onDouble := policy.feeding(h.Policy, h.Stream)
	usual, times := h.Clear.times()
	return &model.Channel{
		Place:      h.place(nil),
		Sheets:     float64(or(h.Sheets, 0)),
		Pages:      h.Pages.number(),
		Buffer:     int(or(h.Buffer, 0)),
		Hopper:     h.Hopper.stock(),
		Lots:       h.Lots.model(),
		Misfeed:    float64(or(h.Misfeed, 0)),
		Double:     float64(or(h.Double, 0)),
		Jam:        float64(or(h.Jam, 0)),
		Noticed:    float64(or(h.Noticed, 1)),
		Caught:     float64(or(h.Caught, 1)),
		Unwatched:  or(h.Noticed, 1) == 0 || or(h.Caught, 1) == 0,
		FalseCalls: float64(or(h.FalseCalls, 0)),
		Stream:     h.Stream.carried(),
		OnMisfeed:  onMisfeed,
		OnDouble:   onDouble,
		Clear:      usual,
		Clearings:  times,
	}
}
