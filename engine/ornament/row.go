package ornament

// The quick notes' 65 ms is a guess, as are the three strokes' 90 (60-120 ms is
// what we take as fast) and the trill's 130 (from where two fingers in turn get
// hard). Patterns and names of the shared family are those the trade shares.
const (
	quick    = 65
	practice = "common practice, no source"
	sign     = practice + "; the sign is ABC 2.1's, 4.14"
	apHuw    = "Robert ap Huw manuscript p. 35, as W. Taylor reads it (Welsh Music History 3, 1999)"
)

var rows = []Row{
	{Name: "cut", Title: "cut", Steps: []int8{+1, 0}, Quick: quick, Source: practice,
		Says: "Flick the string above, and the note comes out of it."},
	{Name: "high-cut", Title: "high cut", Steps: []int8{+2, 0}, Quick: quick, Source: practice,
		Says: "A cut from the second string above; it rings more openly."},
	{Name: "tap", Title: "tap", Steps: []int8{-1, 0}, Quick: quick, Source: practice,
		Says: "A cut from below: the string under the note, then the note."},
	{Name: "upper-mordent", Title: "upper mordent", Steps: []int8{0, +1, 0}, Quick: quick, Source: sign,
		ABC:  []string{"uppermordent", "pralltriller"},
		Says: "The note, the string above and the note again, all in one flick; the last one rings."},
	{Name: "mordent-in-time", Title: "upper mordent in time", Also: "slow mordent", Steps: []int8{0, +1, 0}, Time: Spread, Every: quick, Source: practice + "; how the note is parted is a guess",
		Parts: Parts{Plain: []int8{1, 1, 2}, Dotted: []int8{1, 1, 1}},
		Says:  "The same three strokes without hurry, as notes of the tune: count them."},
	{Name: "lower-mordent", Title: "lower mordent", Steps: []int8{0, -1, 0}, Quick: quick, Source: sign,
		ABC:  []string{"mordent", "lowermordent"},
		Says: "The note, the string below and the note again, all in one flick."},
	{Name: "turn", Title: "turn", Steps: []int8{+1, 0, -1, 0}, Quick: quick, Source: sign,
		ABC:  []string{"turn"},
		Says: "Round the note from above: above, note, below, note."},
	{Name: "turn-after", Title: "turn after the note", Steps: []int8{0, +1, 0, -1, 0}, Time: Spread, Every: quick, Source: practice,
		Says: "Sound the note first, then turn round it on the way to the next."},
	{Name: "inverted-turn", Title: "inverted turn", Steps: []int8{-1, 0, +1, 0}, Quick: quick, Source: sign,
		ABC:  []string{"invertedturn"},
		Says: "Round the note from below: below, note, above, note."},
	{Name: "short-roll", Title: "short roll", Steps: []int8{+1, 0, -1, 0}, Quick: quick, Source: practice + "; that the roll of ABC 2.1, 4.14, is the short one is a guess",
		ABC:  []string{"roll"},
		Says: "A cut and a tap run together; the note rings at the end."},
	{Name: "long-roll", Title: "long roll", Steps: []int8{0, +1, 0, -1, 0}, Time: Spread, Quick: quick, Every: quick, Source: practice,
		Says: "Three even notes; the second is cut and the third is tapped."},
	{Name: "trill", Title: "trill", Steps: []int8{0, +1}, Time: Spread, Every: 130, Repeat: true, Source: sign,
		ABC:  []string{"trill"},
		Says: "The note and the string above in turn, even and unhurried; end on the note."},
	{Name: "three-strokes", Title: "three strokes", Many: true, Also: "three on a string", Steps: []int8{0, 0, 0}, Quick: 90, Source: practice,
		Says: "Three fingers on one string, one after the other, each leaving as the next arrives."},
	{Name: "filled-third", Title: "filled third", Steps: []int8{0, +1}, Time: Spread, Every: quick, Next: +2, Source: practice + "; how the note is parted is a guess",
		Parts: Parts{Plain: []int8{1, 1}, Dotted: []int8{2, 1}},
		Says:  "Step through the string that lies between this note and the next."},
	{Name: "octave-grace", Title: "octave grace", Steps: []int8{+7, 0}, Quick: quick, Source: practice,
		Says: "Touch the octave above on the way in, as light as a bell."},
	{Name: "octave-grace-below", Title: "octave grace from below", Steps: []int8{-7, 0}, Quick: quick, Source: practice,
		Says: "Touch the octave below first; it goes on ringing under the note."},
	{Name: "lower-third", Title: "lower third", Steps: []int8{-2, 0}, Source: practice,
		Says: "Strike the third below together with the note, and softer."},
	{Name: "lower-sixth", Title: "lower sixth", Steps: []int8{-5, 0}, Source: practice,
		Says: "Strike the sixth below together with the note, and softer."},

	{Name: "leagadh-anuas", Title: "leagadh anuas", Family: Irish, Steps: []int8{-1, 0}, Quick: quick, Source: bunting + " p. 24",
		Says: "The string below, short, then the note; of old its finger then stopped the lower string."},
	{Name: "bualadh-suas", Title: "bualadh suas", Family: Irish, Steps: []int8{-2, -1, 0}, Quick: quick, Source: bunting + " p. 25",
		Says: "Three strings upward into the note, and the thumb stays out of it."},
	{Name: "barrluth-beal-an-airde", Title: "barrluth beal an-airde", Family: Irish, Steps: []int8{-1, 0, -1, 0}, Quick: quick, Source: bunting + " p. 25; A. Lawrence-King reads it alike",
		Says: "Lower, note, lower, note. Of old two fingers took turns below, and one played above."},
	{Name: "cul-aithris", Title: "half shake", Also: "cul-aithris", Family: Irish, Steps: []int8{-1, 0, -1, 0}, Quick: quick, Source: bunting + " p. 25; its notes are inferred",
		Says: "Lower, note, lower, note with two fingers, and no more."},
	{Name: "tribhuilleach", Title: "triple shake", Also: "tribhuilleach", Family: Irish, Steps: []int8{0, +1, 0}, Quick: quick, Source: bunting + " p. 25, as A. Lawrence-King reads it",
		Says: "Note, above, note, with another finger for the note each time."},
	{Name: "casluth", Title: "casluth", Family: Irish, Steps: []int8{-1, +1, 0}, Quick: quick, Source: bunting + " p. 25, the fingers alone; its notes are a guess",
		Says: "Below, above, note. Nobody is sure of its notes; this is one reading."},
	{Name: "casluth-otherwise", Title: "casluth otherwise read", Family: Irish, Steps: []int8{0, +1, 0}, Quick: quick, Source: bunting + " p. 25, the fingers alone; its notes are a guess",
		Says: "Note, above, note. Nobody is sure of its notes; this is the other reading."},

	{Name: "plethiad-y-bys-bach", Title: "plethiad y bys bach", Family: Welsh, Steps: []int8{-2, -1, 0}, Quick: quick, Before: 1, Source: apHuw + "; that it begins before the beat: P. Dooley",
		Says: "Three strings upward, the first just before the beat; the lower two are stopped from below."},
	{Name: "takiad-fforchog", Title: "takiad fforchog", Family: Welsh, Steps: []int8{+2, 0}, Quick: quick, Source: apHuw + "; that the interval is a third is a guess",
		Says: "A fork of two fingers, upper string first; the thumb then stops the upper one."},
	{Name: "haner-krafiad", Title: "haner krafiad", Family: Welsh, Steps: []int8{+1, 0}, Quick: quick, Source: apHuw + "; that it falls is inferred",
		Says: "Upper string, then the note; the lower finger stops the upper string as it comes away."},
}
