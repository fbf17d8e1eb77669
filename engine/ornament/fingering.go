package ornament

import "slices"

// Fingering is a way to finger a figure that others have written down. Steps are
// strings from its first stroke, + higher; Fingers run beside them, 0 the thumb.
type Fingering struct {
	Steps   []int8
	Fingers []int8
	Name    string // what the figure is called with these fingers; "" for no more than its usual name
	Source  string
}

const (
	bunting = "Bunting 1840"
	strokes = practice + "; which of the two, the neighbours decide"
)

// fingerings are of figures of single strokes, an ornament's note included. Old
// prints number from the index; these are today's numbers less one.
var fingerings = []Fingering{
	{Steps: []int8{0, 0, 0}, Fingers: []int8{2, 1, 0}, Source: strokes},
	{Steps: []int8{0, 0, 0}, Fingers: []int8{3, 2, 1}, Source: strokes},
	{Steps: []int8{0, -1}, Fingers: []int8{0, 1}, Source: "the thumb is free for what follows: one of two schools of the old cut"},
	{Steps: []int8{0, -1}, Fingers: []int8{1, 2}, Source: "the thumb stops the string: the other of two schools of the old cut"},
	{Steps: []int8{0, +1}, Fingers: []int8{1, 0}, Name: "leagadh anuas", Source: bunting + " p. 24"},
	{Steps: []int8{0, +1, 0}, Fingers: []int8{1, 0, 1}, Source: practice},
	{Steps: []int8{0, +1, 0}, Fingers: []int8{2, 1, 3}, Name: "the triple shake", Source: bunting + " p. 25, as A. Lawrence-King reads it"},
	{Steps: []int8{0, +1, 0, +1}, Fingers: []int8{2, 1, 3, 1}, Name: "barrluth beal an-airde", Source: bunting + " p. 25"},
	{Steps: []int8{0, +1, 0, +1}, Fingers: []int8{1, 0, 1, 0}, Name: "the half shake", Source: bunting + " p. 25"},
	{Steps: []int8{0, -1, 0, -1}, Fingers: []int8{0, 1, 0, 1}, Source: practice},
	{Steps: []int8{0, -1, 0, -1}, Fingers: []int8{0, 1, 0, 2}, Source: practice},
	{Steps: []int8{0, -1, -2, -1}, Fingers: []int8{0, 1, 2, 1}, Source: practice},
}

// Fingerings gives the ways others have written down to finger a figure with
// these strings from its first stroke.
func Fingerings(steps []int8) []Fingering {
	var list []Fingering
	for _, f := range fingerings {
		if slices.Equal(f.Steps, steps) {
			list = append(list, f)
		}
	}
	return list
}
