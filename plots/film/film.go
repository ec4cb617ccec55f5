package film

// Film is what there is to show: a shift of a line, a job pass after pass, or a shift of several
// lines with one crew. All times are in seconds, all cycles those of the track of their line, all
// stations numbers in Stations.
type Film struct {
	Title       string   `json:"title"`
	About       []string `json:"about"`       // sentences on what is shown
	Clock       float64  `json:"clock"`       // of the day, when it begins
	Operators   int      `json:"operators"`   // the most that there ever are
	Technicians int      `json:"technicians"` // who come from elsewhere, likewise; their numbers follow those of the operators
	Fates       []string `json:"fates"`       // what can become of a set; the first is good, of the last it is still on the line
	Reels       []Reel   `json:"reels"`       // one after the other, one at least
}

// Reel is a stretch with clocks of its own: a shift, or a pass of a job. Its times are from its
// start.
type Reel struct {
	Name    string    `json:"name"`   // where there are several
	Begins  float64   `json:"begins"` // from the start of the film
	Lasts   float64   `json:"lasts"`
	Lines   []Line    `json:"lines"`
	Tasks   []Task    `json:"-"` // of operators and technicians, in the order of the calls
	Present []Present `json:"-"` // how many operators are there, of a crew that changes
}

// Line is a line in a reel.
type Line struct {
	Name     string    `json:"name"`
	Started  int64     `json:"started"` // sets
	Stations []Station `json:"stations"`
	Runs     []Run     `json:"-"` // when it ran, in order
	Stood    []Stretch `json:"-"` // when it stood, in order
	Stops    []Stop    `json:"-"` // reasons to stand, in the order in which they arose
	Sets     []Set     `json:"-"` // all that were not simply good, by number
	Notes    []Note    `json:"-"` // on these, in order of the sets and of what happened
	Levels   []Level   `json:"-"` // of the stocks, in order of time
}

// Station is a station of a line.
type Station struct {
	Name     string `json:"name"`
	Kind     string `json:"kind"`
	Look     Look   `json:"look"`
	At       int    `json:"at"`       // pitches from the first station
	Capacity int64  `json:"capacity"` // of its stock, pieces or places; 0 for none
	Warning  int64  `json:"warning"`  // an operator is called at this level
	Bin      bool   `json:"bin"`      // what is left in the stock are places
	UsedUp   string `json:"usedUp"`   // what it is called when nothing is left in the stock
}

// Look is how a station is drawn.
type Look string

// The looks. One that is not among them is drawn as a plain box.
const (
	Hopper    Look = "hopper"
	Sheets    Look = "sheets"
	Envelopes Look = "envelopes"
	Eye       Look = "eye"
	Gate      Look = "gate" // before insertion
	Inserter  Look = "inserter"
	Exit      Look = "exit" // a gate after insertion
	Belt      Look = "belt"
	Box       Look = "box"
)

// Run is a stretch in which a line ran: n cycles after its start are completed n times Each after
// From.
type Run struct {
	From, To    float64
	Cycle, Last int64   // completed at From, and at To
	Each        float64 // seconds a cycle
}

// Present is how many operators are there from a moment on.
type Present struct {
	At        float64
	Operators int
}

// Nowhere is the station of what is at none.
const Nowhere = -1

// Stretch is one in which a line stood, for one cause at one station; a break is Nowhere.
type Stretch struct {
	From, To     float64
	Station      int
	Cause, Phase string
}

// Stop is one reason to stand. Several may be open at a time.
type Stop struct {
	From, To float64
	Station  int
	Cause    string
	Cycle    int64 // completed when it arose
}

// Never is the cycle of what does not happen.
const Never = -1

// Set is a set that was not simply good.
type Set struct {
	Number    int64
	Fate      string
	Station   int   // where it left, or was last
	Gone      int64 // in this cycle
	Flawed    int64 // from this cycle on
	Condemned int64 // in this cycle
}

// Note is one thing that happened with a set.
type Note struct {
	Set, Cycle int64
	Station    int
	Text       string
}

// Task is one of the crew, from the call to its end.
type Task struct {
	Line, Station int
	Work          string
	Called        float64
	From, Arrives float64 // who does it sets off, and is there
	To            float64 // it is done, or the reel has ended
	Operator      int     // from 0; Nobody came, then From, Arrives and To are the end
}

// Nobody is who does a task that is never taken.
const Nobody = -1

// Level is what is left in a stock.
type Level struct {
	Station int
	At      float64
	Cycle   int64
	Left    int64 // pieces or places
	Filled  int64 // of these, put in since the level before
}
