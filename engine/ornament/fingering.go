package ornament

import "slices"

// Fingering is a way to finger a figure that others have written down. Steps are
// strings from its first stroke, + higher; Fingers run beside them, 0 the thumb.
type Fingering struct {
	Steps   []int8
	Fingers []int8
	Of      []string // the ornaments that are fingered so; none for any such figure
	Name    string   // what the figure is called with these fingers; "" for no more than its usual name
	Stops   []Stop   // fingers that silence a string afterwards, and then are on it
	Source  string
}

// Stop is a finger that comes down on a string after a figure: Step is counted
// from the figure's first stroke. Finger 4 is the little one, which plays nothing
// here.
type Stop struct{ Finger, Step int8 }

const (
	bunting = "Bunting 1840"
	strokes = practice + "; which of the two, the neighbours decide"
	cuts    = "one of two schools of the old cut"
	teacher = "Christy-Lyn, 10 Rules of Harp Fingering, rule 2"
	trills  = "C. Swanson, Harp Column forum"
)

// fingerings are of figures of single strokes, an ornament's note included. Old
// prints number from the index; these are today's numbers less one.
var fingerings = []Fingering{
	{Steps: []int8{0, 0, 0}, Fingers: []int8{2, 1, 0}, Source: strokes},
	{Steps: []int8{0, 0, 0}, Fingers: []int8{3, 2, 1}, Source: strokes},

	{Steps: []int8{0, -1}, Fingers: []int8{0, 1}, Of: []string{"cut"}, Source: "the thumb is free for what follows: " + cuts},
	{Steps: []int8{0, -1}, Fingers: []int8{1, 2}, Of: []string{"cut"}, Stops: []Stop{{0, 0}}, Source: "the thumb stops the string: " + cuts},
	{Steps: []int8{0, -1}, Fingers: []int8{2, 3}, Of: []string{"haner-krafiad"}, Stops: []Stop{{3, 0}}, Source: apHuw},
	{Steps: []int8{0, -1}, Fingers: []int8{0, 1}, Of: []string{"filled-third"}, Source: practice},
	{Steps: []int8{0, +1}, Fingers: []int8{1, 0}, Of: []string{"filled-third"}, Source: practice},
	{Steps: []int8{0, +1}, Fingers: []int8{1, 0}, Of: []string{"tap"}, Source: bunting + " p. 24, where the finger also stops the string: leagadh anuas"},
	{Steps: []int8{0, +1}, Fingers: []int8{1, 0}, Of: []string{"leagadh-anuas"}, Name: "leagadh anuas", Stops: []Stop{{0, 0}}, Source: bunting + " p. 24"},

	{Steps: []int8{0, -2}, Fingers: []int8{0, 1}, Source: practice},
	{Steps: []int8{0, -2}, Fingers: []int8{1, 3}, Of: []string{"takiad-fforchog"}, Stops: []Stop{{0, 0}}, Source: apHuw},
	{Steps: []int8{0, +2}, Fingers: []int8{1, 0}, Source: "D. Hall, The Complete Chromatic Harp, ex. 3"},
	{Steps: []int8{0, +2}, Fingers: []int8{2, 1}, Source: bunting + " p. 26"},
	{Steps: []int8{0, +5}, Fingers: []int8{2, 0}, Source: teacher},
	{Steps: []int8{0, +7}, Fingers: []int8{3, 0}, Source: bunting + " p. 26"},
	{Steps: []int8{0, +7}, Fingers: []int8{3, 1}, Name: "forked fingers", Source: bunting + " p. 26"},
	{Steps: []int8{0, +7}, Fingers: []int8{2, 0}, Source: "usual on narrow harps: Harpa Mundi, publisher's note"},
	{Steps: []int8{0, -7}, Fingers: []int8{0, 3}, Source: bunting + " p. 26"},
	{Steps: []int8{0, -7}, Fingers: []int8{0, 2}, Source: "usual on narrow harps: Harpa Mundi, publisher's note"},

	{Steps: []int8{0, +1, 0}, Fingers: []int8{1, 0, 1}, Source: practice},
	{Steps: []int8{0, +1, 0}, Fingers: []int8{2, 1, 3}, Name: "the triple shake", Source: bunting + " p. 25, as A. Lawrence-King reads it"},
	{Steps: []int8{0, +1, 0}, Fingers: []int8{3, 1, 2}, Of: []string{"casluth-otherwise"}, Source: bunting + " p. 25, the fingers alone"},
	{Steps: []int8{0, +2, +1}, Fingers: []int8{3, 1, 2}, Of: []string{"casluth"}, Source: bunting + " p. 25, the fingers alone"},
	{Steps: []int8{0, +1, +2}, Fingers: []int8{3, 2, 1}, Of: []string{"bualadh-suas"}, Source: bunting + " p. 25"},
	{Steps: []int8{0, +1, +2}, Fingers: []int8{2, 1, 0}, Of: []string{"plethiad-y-bys-bach"}, Stops: []Stop{{3, +1}, {4, 0}}, Source: apHuw + "; which of the two stops which is inferred"},

	{Steps: []int8{0, +1, 0, +1}, Fingers: []int8{2, 1, 3, 1}, Name: "barrluth beal an-airde", Stops: []Stop{{2, 0}}, Source: bunting + " p. 25"},
	{Steps: []int8{0, +1, 0, +1}, Fingers: []int8{1, 0, 1, 0}, Name: "the half shake", Source: bunting + " p. 25"},
	{Steps: []int8{0, -1, 0, -1}, Fingers: []int8{0, 1, 0, 1}, Source: practice},
	{Steps: []int8{0, -1, 0, -1}, Fingers: []int8{0, 1, 0, 2}, Source: practice},
	{Steps: []int8{0, -1, -2, -1}, Fingers: []int8{0, 1, 2, 1}, Source: practice},
	{Steps: []int8{0, +1, +2, +1}, Fingers: []int8{2, 1, 0, 1}, Of: []string{"inverted-turn"}, Source: practice},
	{Steps: []int8{0, +1, 0, -1, 0}, Fingers: []int8{1, 0, 1, 2, 1}, Source: practice},
}

// Fingerings gives the ways others have written down to finger a figure with
// these strings from its first stroke: an ornament, by its name, or written notes,
// "".
func Fingerings(steps []int8, of string) []Fingering {
	var list []Fingering
	for _, f := range fingerings {
		if slices.Equal(f.Steps, steps) && (f.Of == nil || slices.Contains(f.Of, of)) {
			list = append(list, f)
		}
	}
	if shaken(steps) {
		list = append(list, Fingering{Steps: steps, Fingers: slices.Repeat([]int8{1, 0}, len(steps))[:len(steps)], Source: trills})
	}
	return list
}

// shaken reports a trill: the two strings in turn, more often than a grace has
// them.
func shaken(steps []int8) bool {
	for i, step := range steps {
		if step != int8(i%2) {
			return false
		}
	}
	return len(steps) >= leastRepeat
}
