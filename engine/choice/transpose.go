package choice

import (
	"strconv"
	"strings"

	"readyhand/engine/pitch"
	"readyhand/engine/source"
)

// mostStrings is how many strings a tune can be moved: three octaves (guess).
const mostStrings = 21

// Transpose is how a tune is to be moved: so many strings up (down below 0), or if
// ToKey, to the key on Tonic, whose octave does not count.
type Transpose struct {
	Strings int
	ToKey   bool
	Tonic   pitch.Pitch
}

// Transpose gives how the tune is to be moved; said is false where nothing was
// said.
func (c Choice) Transpose() (to Transpose, said bool) {
	v, said := c.about(transposed, 0)
	if v[0] == 1 {
		return Transpose{ToKey: true, Tonic: pitch.Pitch{Letter: int8(v[1]), Octave: 4, Alter: int8(v[2])}}, said
	}
	return Transpose{Strings: int(v[1])}, said
}

// checkTranspose reads a number of strings or the tonic of a key. Its values are
// 0 and the number, or 1, letter and alteration.
func checkTranspose(words string) ([3]int32, *Fault) {
	n, err := strconv.ParseInt(strings.TrimPrefix(words, "+"), 10, 16)
	switch {
	case err == nil && n >= -mostStrings && n <= mostStrings:
		return [3]int32{0, int32(n)}, nil
	case err == nil:
		return one(0), &Fault{"A tune is moved by " + strconv.Itoa(mostStrings) + " strings at most.", "Write for instance transpose 2, or transpose -3 for lower."}
	}
	if p, ok := pitch.Parse(words + "4"); ok && p.Alter >= -1 && p.Alter <= 1 {
		return [3]int32{1, int32(p.Letter), int32(p.Alter)}, nil
	}
	return one(0), &Fault{source.Quote(words) + " is neither a key nor a number of strings.", "Write transpose D for the key of D, transpose 2 for two strings higher, or transpose 0 for as it is written."}
}

func writeTranspose(v [3]int32) string {
	if v[0] == 0 {
		return strconv.Itoa(int(v[1]))
	}
	return pitch.Pitch{Letter: int8(v[1]), Alter: int8(v[2])}.Name()
}
