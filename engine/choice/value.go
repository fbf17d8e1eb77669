package choice

import (
	"slices"
	"strconv"
	"strings"

	"readyhand/engine/harp"
	"readyhand/engine/pitch"
	"readyhand/engine/source"
)

// one is a value of a single number.
func one(n int32) [3]int32 { return [3]int32{n} }

func writeNumber(v [3]int32) string { return strconv.Itoa(int(v[0])) }

// checkStrings takes what harp.New takes.
func checkStrings(words string) ([3]int32, *Fault) {
	n, ok := count(words, 47)
	if !ok || n < 8 {
		return one(0), &Fault{"A harp here has 8 to 47 strings, not " + source.Quote(words) + ".", "Write for instance strings 34."}
	}
	return one(int32(n)), nil
}

// checkLowest takes the letter and octave of a string; the tuning gives its
// flat. C6 is far above the lowest string of any harp (guess).
func checkLowest(words string) ([3]int32, *Fault) {
	p, ok := pitch.Parse(words)
	switch {
	case ok && p.Alter != 0:
		p.Alter = 0
		return one(0), &Fault{"The lowest string is named by its letter; the tuning says whether it is flat.", "Write lowest " + p.String() + "."}
	case !ok && words != "" && words[0]|0x20 == 'h':
		return one(0), &Fault{"H is no name of a string here.", "Write B for H: lowest B2."}
	case !ok:
		return one(0), &Fault{source.Quote(words) + " is not the name of a string.", "Write its letter and octave, middle C being C4: lowest C2."}
	case p.Step() > 42:
		return one(0), &Fault{"No harp begins as high as " + p.String() + ".", "Write its letter and octave, middle C being C4: lowest C2."}
	}
	return one(int32(p.Step())), nil
}

func writeLowest(v [3]int32) string { return pitch.AtStep(int(v[0])).String() }

func checkTuning(words string) ([3]int32, *Fault) {
	i := slices.IndexFunc(harp.Tunings(), func(t string) bool { return strings.EqualFold(t, words) })
	if i < 0 {
		return one(0), &Fault{"A tuning with all levers down is one of " + strings.Join(harp.Tunings(), ", ") + ", not " + source.Quote(words) + ".",
			"Write for instance tuning Eb."}
	}
	return one(int32(i)), nil
}

func writeTuning(v [3]int32) string { return harp.Tunings()[v[0]] }

func checkSpacing(words string) ([3]int32, *Fault) {
	v, ok := thousandths(strings.TrimSuffix(words, " mm"))
	if !ok || v < 8000 || v > 25000 {
		return one(0), &Fault{"Strings lie 8 to 25 millimetres apart, not " + source.Quote(words) + ".", "Write how far it is from one string to the next: spacing 14.5."}
	}
	return one(v), nil
}

func checkReach(words string) ([3]int32, *Fault) {
	v, ok := thousandths(words)
	if !ok || v < 500 || v > 1500 {
		return one(0), &Fault{"A reach is 0.5 to 1.5 times that of the usual grown hand, not " + source.Quote(words) + ".", "Write for instance reach 0.9 for a smaller hand."}
	}
	return one(v), nil
}

// checkSpan takes what two fingers may hold in comfort, in millimetres; 10 and 250
// lie outside any hand's (guess).
func checkSpan(words string) ([3]int32, *Fault) {
	v, ok := thousandths(strings.TrimSuffix(words, " mm"))
	if !ok || v < 10000 || v > 250000 {
		return one(0), &Fault{"Two fingers hold 10 to 250 millimetres in comfort, not " + source.Quote(words) + ".", "Write what you measure between them: span12 80."}
	}
	return one(v), nil
}

// styles by their value.
var styles = [2]string{"connected", "lifted"}

func checkStyle(words string) ([3]int32, *Fault) {
	i := slices.Index(styles[:], strings.ToLower(words))
	if i < 0 {
		return one(0), &Fault{"Placings are connected or lifted, not " + source.Quote(words) + ".", "Write style lifted if the hand comes off the strings between placings."}
	}
	return one(int32(i)), nil
}

func writeStyle(v [3]int32) string { return styles[v[0]] }

// thousandths reads a number with at most three decimals.
func thousandths(words string) (int32, bool) {
	whole, part, _ := strings.Cut(words, ".")
	if whole == "" || len(whole) > 3 || len(part) > 3 {
		return 0, false
	}
	digits := whole + part + "000"[len(part):]
	for i := range len(digits) {
		if digits[i] < '0' || digits[i] > '9' {
			return 0, false
		}
	}
	n, err := strconv.ParseInt(digits, 10, 32)
	return int32(n), err == nil
}

func writeThousandths(v [3]int32) string {
	digits := strconv.Itoa(int(v[0] % 1000))
	part := strings.TrimRight("000"[len(digits):]+digits, "0")
	if part == "" {
		return strconv.Itoa(int(v[0] / 1000))
	}
	return strconv.Itoa(int(v[0]/1000)) + "." + part
}

// checkFingers keeps one bit a finger, the thumb's the lowest.
func checkFingers(words string) ([3]int32, *Fault) {
	bits := int32(0)
	for _, f := range strings.ReplaceAll(words, " ", "") {
		if f < '1' || f > '4' || bits&(1<<(f-'1')) != 0 {
			bits = 0
			break
		}
		bits |= 1 << (f - '1')
	}
	if bits == 0 {
		return one(0), &Fault{"Fingers in use are some of 1, 2, 3 and 4, not " + source.Quote(words) + ".", "Write them together: fingers 123."}
	}
	return one(bits), nil
}

func writeFingers(v [3]int32) string {
	written := ""
	for f := range 4 {
		if v[0]&(1<<f) != 0 {
			written += strconv.Itoa(f + 1)
		}
	}
	return written
}

// hands by their value.
var hands = [2]string{"right", "left"}

func checkHand(words string) ([3]int32, *Fault) {
	i := slices.Index(hands[:], strings.ToLower(words))
	if i < 0 {
		return one(0), &Fault{"A hand is right or left, not " + source.Quote(words) + ".", "Write hand right, or hand left."}
	}
	return one(int32(i)), nil
}

func writeHand(v [3]int32) string { return hands[v[0]] }

func checkFinger(words string) ([3]int32, *Fault) {
	if strings.EqualFold(words, "free") {
		return one(0), nil
	}
	if n, ok := count(words, 4); ok {
		return one(int32(n)), nil
	}
	return one(0), &Fault{"A finger is 1, 2, 3 or 4 (1 is the thumb), not " + source.Quote(words) + ".", "Write for instance finger@12 2, or finger@12 free to leave it open."}
}

func writeFinger(v [3]int32) string {
	if v[0] == 0 {
		return "free"
	}
	return writeNumber(v)
}

// checkTempo reads how many of a length go to a minute: "1/4=92", or "92"
// quarters. Its values are the length's two numbers and how many.
func checkTempo(words string) ([3]int32, *Fault) {
	length, beats, ok := strings.Cut(strings.ReplaceAll(words, " ", ""), "=")
	if !ok {
		length, beats = "1/4", length
	}
	over, under, _ := strings.Cut(length, "/")
	n, okN := count(over, 64)
	d, okD := count(under, 64)
	if !okN || !okD {
		return one(0), &Fault{source.Quote(length) + " is not the length of a note.", "Write for instance tempo 1/4=92, or tempo 3/8=100 for dotted crotchets."}
	}
	x, okX := count(beats, 400)
	if !okX || x < 10 {
		return one(0), &Fault{"A tempo is 10 to 400 a minute, not " + source.Quote(beats) + ".", "Write for instance tempo 1/4=92."}
	}
	v := [3]int32{int32(n), int32(d), int32(x)}
	if q := quarter(v); q < 20 || q > 30000 {
		return one(0), &Fault{"Nobody can play at " + length + "=" + beats + ".", "Write for instance tempo 1/4=92."}
	}
	return v, nil
}

func writeTempo(v [3]int32) string {
	return strconv.Itoa(int(v[0])) + "/" + strconv.Itoa(int(v[1])) + "=" + strconv.Itoa(int(v[2]))
}

// quarter gives the milliseconds of a quarter note, rounded to the nearest.
func quarter(v [3]int32) int32 {
	n, d, x := int64(v[0]), int64(v[1]), int64(v[2])
	return int32((15000*d*2 + n*x) / (2 * n * x))
}
