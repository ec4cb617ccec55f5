package plots

// An Activity is what a line does in a stint.
type Activity int

// The activities.
const (
	Producing    Activity = iota
	ChangingOver          // from one job to the next
	Remaking              // remakes of a job
	Pausing               // a break
	Idling                // manned, with nothing to do
	Broken                // down: it cannot be used
	Awaiting              // somebody who may change it over
	activities            // how many there are
)

// An activityLook is a word, a colour and a height, so that no activity is shown by its
// colour alone. One without a fill is an outline.
type activityLook struct {
	name string
	fill colour
	high float64
}

// The L* of the fills lie nine and more apart.
var activityLooks = [activities]activityLook{
	{"running", tint(sky, 0.45), 15},
	{"changeover", night, 15},
	{"remakes", purple, 15},
	{"break", tint(night, 0.4), 6},
	{"idle", colour{}, 6},
	{"down", vermilion, 3},
	{"waiting for somebody", blue, 6},
}

// bearsJob tells whether a bar of the activity names its job.
func (a Activity) bearsJob() bool { return a <= Remaking }

// draw returns a bar from left to right around the middle of y, of its height times
// scale.
func (a Activity) draw(left, right, y, scale float64, tip string) []mark {
	look := activityLooks[a]
	half := scale * look.high / 2
	corners := rect(left, y-half, right, y+half)
	if look.fill.A == 0 {
		return []mark{
			area{corners: corners, fill: paper, tip: tip},
			stroke{points: append(corners, corners[0]), pen: pen{colour: muted, width: 0.7, dashes: []float64{2, 1.5}}},
		}
	}
	return []mark{area{corners: corners, fill: look.fill, tip: tip}}
}

// key returns the entry of the legend.
func (a Activity) key() key {
	return key{name: activityLooks[a].name, look: func(b box) []mark {
		return a.draw(b.left, b.right, (b.top+b.bottom)/2, 0.6, "")
	}}
}
