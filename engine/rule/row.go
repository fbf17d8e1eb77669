// Package rule is what holding and moving the hand costs, as rows.
package rule

// ID names a row.
type ID int8

// The rows, in the order of the table below.
const (
	NewPlacing ID = iota
	Carried
	SameShape
	PlacingTime
	WeakBeat
	OneNote
	ThumbAlone
	NoThumb
	StretchComfortable
	StretchMost
	Cramped
	FourthFinger
	InPart
	KeptFinger
	AwayTime
	SharedString
	Back
	ThumbSlide
	Lift
	LiftWay
	LiftTime
	Repeat
	RepeatAfter
	Ringing
	Hop
	UnderBy2
	UnderBy3
	UnderBy4
	OverFrom2
	OverFrom3
	OverFrom4
	CrossFar
	CrossTime
	TooFast
	Count
)

// Row is one rule: a name a teacher would use, what it charges in thousandths
// of a charge, for what (Per), the sentence that explains it, and where the
// number comes from. h is how hurried a step is, see Hurry.
type Row struct {
	Name     string
	Charge   int64
	Per      string
	Sentence string
	Source   string
}

// Charges are the rows' charges, in thousandths: a table of its own, so that
// tests can draw others.
type Charges [Count]int64

const guess = "guess, fitted by hand to published fingerings of short passages"

var rows = [Count]Row{
	NewPlacing:         {"new placing", 24000, "placing", "the hand is set anew", guess},
	Carried:            {"connected placing", 14000, "placing, instead of a new one, while a finger holds: the last one played, or one that stays on its string", "one finger holds while the others are set", guess + "; 3 is set on its new string while 1 still plays (Fionn, Etüde 3er-Gruppen)"},
	SameShape:          {"same shape", 8000, "placing, instead of a new one, of a chord that moves as it is, without a lift or a hop", "the hand keeps its shape", guess + "; one shape moved along neighbouring strings is an early exercise (common practice, no source)"},
	WeakBeat:           {"placing off the beat", 2500, "placing that begins on a weaker beat, twice if between beats", "the hand is placed off the beat", guess},
	PlacingTime:        {"hurried placing", 8000, "placing, times h; half of it while a finger holds", "there is little time to set the hand", guess + "; a hand starts 415-529 ms before its note (Chadefaux et al. 2013, at second hand)"},
	OneNote:            {"one note in a placing", 14000, "placing with one written note", "a placing for one note alone", guess + "; set a group of up to four at once (UBC Impart 2013)"},
	ThumbAlone:         {"thumb alone", 4000, "placing with one written note, the thumb's", "one note alone is better with the index", guess + "; one note alone with the index (Christy-Lyn, rule 1)"},
	NoThumb:            {"without the thumb", 8000, "placing whose written notes do not use the thumb", "the thumb has no note in this placing", guess + "; fingers 1 and 2 come first (A. Sullivan)"},
	StretchComfortable: {"open hand", 3000, "pair, growing from relaxed to comfortable", "the hand is open", guess},
	StretchMost:        {"wide stretch", 24000, "pair, growing from comfortable to the most", "the hand is stretched wide", guess + "; a tenth is safe for an adult (Sibelius Academy after Chaloupka 1979)"},
	Cramped:            {"cramped fingers", 6000, "started 12 mm that a pair lacks of 12 mm a finger", "the fingers are cramped", guess + "; under 12.5 mm is held unplayable with finger pads (Heartland Harps)"},
	FourthFinger:       {"fourth finger", 7000, "placing", "the fourth finger is needed", guess + "; it is slower rather than weaker (Aoki et al. 2005)"},
	InPart:             {"chord in part", 8000, "rolled chord wider than the hand", "the thumb reaches its string while the finger below plays", guess + "; wider than a tenth only rolled (Sibelius Academy after Chaloupka 1979)"},
	KeptFinger:         {"finger kept ready", 6000, "finger but the thumb, and placing", "a finger waits on a string for an ornament", guess},
	AwayTime:           {"hand away for an ornament", 30000, "step away or back, times h", "the hand leaves for the ornament", guess},
	SharedString:       {"fingers share a string", 5000, "finger beyond the first on a string", "two fingers share a string", guess},
	Back:               {"back to a lower finger", 14000, "step on one string", "a finger lower in the hand follows on the same string", guess},
	ThumbSlide:         {"thumb slides", 7000, "slide to the string below, the placing beside it", "the thumb slides to the string below", guess + "; the thumb slides down with ease (E. Volpé Bligh, Writing for the Pedal Harp)"},
	Lift:               {"lift", 10000, "lift", "the hand comes off the strings", guess + "; lifting is dearer than connecting (Little Lessons 58)"},
	LiftWay:            {"way of a lift", 2000, "14.5 mm that the hand moves", "the hand has some way to go", guess},
	LiftTime:           {"hurried lift", 20000, "lift, times h", "there is little time for the hand to come off", guess},
	Repeat:             {"same finger at once", 400, "millisecond under 200", "one finger repeats its string quickly", guess + "; one finger taps 5-7 times a second at most (Fujii et al. 2009)"},
	RepeatAfter:        {"same finger soon again", 200, "millisecond under 200, one stroke between", "one finger is soon back on its string", guess},
	Ringing:            {"sounding string", 2000, "octave below C5, step that sets a finger on a string just played", "the finger comes down on a string that still sounds", guess + "; low strings buzz most (T. Goss)"},
	Hop:                {"hop", 16000, "step, times h", "one finger hops to another string", guess + "; a finger may hop when the music is not too fast (E. Volpé Bligh, Writing for the Pedal Harp)"},
	UnderBy2:           {"2 crosses under", 18000, "crossing", "2 passes under the thumb", guess},
	UnderBy3:           {"3 crosses under", 8000, "crossing", "3 passes under the thumb", guess + "; 3 under 1 (D. Hall, ex. 13)"},
	UnderBy4:           {"4 crosses under", 6000, "crossing", "4 passes under the thumb", guess + "; 4 under 1 (S. Ballard)"},
	OverFrom2:          {"1 crosses over 2", 14000, "crossing", "the thumb goes over 2", guess},
	OverFrom3:          {"1 crosses over 3", 8000, "crossing", "the thumb goes over 3", guess + "; 1 over 3 (D. Hall, ex. 13)"},
	OverFrom4:          {"1 crosses over 4", 6000, "crossing", "the thumb goes over 4", guess + "; 1 over 4 (S. Ballard)"},
	CrossFar:           {"wide crossing", 4000, "crossing past 17 mm", "the crossing reaches past the next string", guess},
	CrossTime:          {"hurried crossing", 5000, "crossing, times h", "there is little time to cross", guess},
	TooFast:            {"faster than a finger", 400000, "step between written notes", "this is faster than one finger can repeat", guess + "; large, so that it is taken only where nothing else can be played"},
}

// Rows gives the table.
func Rows() [Count]Row { return rows }

// Usual gives the charges of the table.
func Usual() Charges {
	var c Charges
	for i, r := range rows {
		c[i] = r.Charge
	}
	return c
}

// Hurry gives h, in thousandths, of a step that has this many milliseconds: 0
// from 530, rising evenly to 1000 at 200, then 15 more for each millisecond
// less. (Knees: a moving hand starts 415-529 ms before its note, Chadefaux et
// al. 2013, at second hand; a finger sits on its string about 200 ms before a
// pluck, Chadefaux. The slope below is a guess.)
func Hurry(ms int32) int64 {
	switch t := int64(ms); {
	case t >= 530:
		return 0
	case t >= 200:
		return (530 - t) * 1000 / 330
	default:
		return 1000 + 15*(200-t)
	}
}

// Times below which a rule bars an ornament, in milliseconds, and other knees.
const (
	sharp       = 200   // repeating one finger is charged below this (Fujii et al. 2009)
	RepeatLeast = 150   // guess: place, press and release in one; same finger, same string, next stroke: barred below
	afterLeast  = 90    // the same with a stroke between: barred below (guess)
	AwayLeast   = 200   // a step into or out of a private placing needs this (guess)
	DropLeast   = 400   // a finger not set beforehand can drop in after this (guess)
	fingerWidth = 12000 // micrometres a finger takes up (guess: under 12.5 mm is held unplayable with finger pads, Heartland Harps)
	crossNear   = 17000 // micrometres: just past one string of 14.5 mm (guess)
	crossMost   = 46000 // micrometres: three strings of 14.5 mm and 2.5 mm (guess)
	liftUnit    = 14500 // micrometres: the spacing at middle C of many harps, to count a lift in
)
