package draw

import (
	"strconv"
	"strings"

	"readyhand/engine/pitch"
	"readyhand/engine/score"
)

// signs are the alterations as printed beside a letter. The single signs of a
// double flat and sharp are missing from many fonts.
var signs = [...]string{"♭♭", "♭", "", "♯", "♯♯"}

// printed is a pitch's name without its octave: "F♯".
func printed(p pitch.Pitch) string {
	return pitch.Pitch{Letter: p.Letter}.Name() + signs[max(0, min(4, p.Alter+2))]
}

// spoken is the same for a reader's ear, with its octave: "F sharp 5".
func spoken(p pitch.Pitch) string {
	return pitch.Pitch{Letter: p.Letter}.Name() +
		[...]string{" double flat ", " flat ", "", " sharp ", " double sharp "}[max(0, min(4, p.Alter+2))] + strconv.Itoa(int(p.Octave))
}

// sounding is what a string sounds as the levers stand at the start.
func sounding(s *score.Score, t int8) pitch.Pitch {
	return s.Harp.Strings[t].Sounding(raised(s, t))
}

func raised(s *score.Score, t int8) bool { return int(t) < len(s.Raised) && s.Raised[t] }

// barName is a bar as spoken: "bar 2", "the pickup".
func barName(n int) string {
	if n == 0 {
		return "the pickup"
	}
	return "bar " + strconv.Itoa(n)
}

// decimal writes thousandths without needless zeros: 14500 is "14.5".
func decimal(thousandths int32) string {
	whole := strconv.Itoa(int(thousandths / 1000))
	part := strings.TrimRight(strconv.Itoa(int(thousandths%1000) + 1000)[1:], "0")
	if part == "" {
		return whole
	}
	return whole + "." + part
}
