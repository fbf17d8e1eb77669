package agree_test

// difference is one row of the table: a feature, or an example, of which a
// program has another reading than ours, and why ours is the standard's.
type difference struct {
	where   string
	program string // abc2midi or abcjs; both, if they agree; each, if not even that
	section string // of ABC 2.1
	why     string
}

var differences = []difference{
	{"accidental in another octave", "abcjs", "4.2, 11.3", "an accidental holds for its letter in every octave, if nothing else is said"},
	{"no M: line + meter on a line", "abcjs", "3.1.7", "a later meter changes no length"},
	{"rests of whole bars + meter on a line", "abcjs", "4.5", "Z2 rests for two bars of the meter that holds"},
	{"an unseen rest of a bar + meter on a line", "abcjs", "4.5", "X rests for a bar of the meter that holds"},
	{anyRepeat + " + " + anyNewKey, "abcjs", "3.1.14, 4.8", "a part that is repeated begins in the key that it began in"},
	{"tie to another pitch", "abcjs", "4.11", "a tie to another pitch is a slur"},
	{"unit by the meter, 3/8 + septuplet", "abc2midi", "4.13", "3/8 is not among the compound meters: (7 is in the time of two"},
	{"chord with both lengths", "abc2midi", "4.17", "inner and outer lengths are multiplied"},
	{"chord with both lengths, longer", "abc2midi", "4.17", "inner and outer lengths are multiplied"},
	{"tempo inside the line", "abcjs", "3.1.8", "a tempo changes no length"},
	{"tuplet with all left out", "abcjs", "4.13", "(3:: is a triplet"},
	{"tuplet of unlike lengths", "abcjs", "4.13", "every note of the three takes two thirds of its time"},
	{"tuplet with a broken rhythm", "abcjs", "4.13", "every note of the three takes two thirds of its time"},
	{"explicit accidentals", "abcjs", "3.1.14", "exp leaves only the accidentals that are written out"},
	{"empty key", "abc2midi", "3.1.14", "an empty key has no sharps or flats"},
	{"field continued", "abcjs", "3.3", "+: goes on with the field before, it is no music"},
	{"line in the head that is no field", "abcjs", "2.2.1", "the head of a tune is fields; no music before K:"},
	{"remark in the head", "abcjs", "3.1.16", "r: is a remark, no music"},
	{"repeat not marked, after a double bar", "both", "4.8", "back to the latest double bar"},
	{"repeat three times", "both", "4.8", "|:: and ::| mean three times"},
	{"endings twice", "each", "4.9", "a repeat sign ends the second ending, nothing more"},
	{"endings of several passes", "abc2midi", "4.10", "three endings, three passes"},
	{"endings without a repeat sign", "each", "4.9", "a second ending asks for a second pass"},
	{"endings, then a repeat not marked", "each", "4.8", "back to the latest double bar"},
	{"endings twice, none marked", "each", "4.8", "back to the latest double bar"},
	{"endings, then a repeat, with colons", "abcjs", "4.8", "the part after :: is repeated by itself"},
	{"a part before its order", "abcjs", "3.1.9", "the order of parts is played"},
	{"order of parts", "abcjs", "3.1.9", "the order of parts is played"},
	{"order of parts with counts", "abcjs", "3.1.9", "the order of parts is played"},
	{"order of parts in brackets", "abcjs", "3.1.9", "the order of parts is played"},
	{"order of parts with dots", "abcjs", "3.1.9", "the order of parts is played"},
	{"order of parts with repeats", "abcjs", "3.1.9", "the order of parts is played"},
	{"parts inside the line", "abcjs", "3.1.9", "the order of parts is played"},

	{"baym_rebin.abc, 1", "abc2midi", "3.1.14", "K:C^f^c^a is C with three sharps, without spaces too"},
	{"baym_rebin.abc, 1", "abcjs", "7", "a voice goes on at its own pace"},
	{"boys.abc, 1", "abcjs", "7", "a voice goes on at its own pace"},
	{"coleraine.abc, 1", "abcjs", "7", "a voice goes on at its own pace"},
	{"demo.abc, 1", "abcjs", "4.8", "a part ends at its repeat sign, on the next line too"},
	{"demo.abc, 5", "abcjs", "3.1.9", "the order of parts is played"},
	{"demo.abc, 8", "abcjs", "4.11", "a tie to another pitch is a slur"},
	{"temperament.abc, 1", "abcjs", "4.2", "a microtone is an accidental: all notes stay in their chord"},
	{"temperament.abc, 2", "each", "4.2", "a microtone sounds as its letter, for that note alone"},
	{"accordion.abc, 1", "each", "4.9", "a repeat sign ends the second ending, nothing more"},
	{"deco.abc, 1", "abc2midi", "4.6", "a new clef takes back the octave of the one before"},
	{"sample.abc, 5", "abc2midi", "4.17", "a unison is two notes; a MIDI file cannot hold them"},
	{"sample.abc, 9", "abc2midi", "4.17", "G sharp and A flat are two notes; a MIDI file cannot hold them"},
	{"sample.abc, 7", "both", "4.8", "back to the latest double bar"},
	{"sample.abc, 4", "abcjs", "4.4", "a broken rhythm holds over the bar line"},
	{"sample2.abc, 2", "each", "3.1.6", "M:2 is no meter, so Z4 has nothing to count in: whole notes"},
	{"sample2.abc, 7", "abcjs", "5.1", "w: is a line of words, after a continued line too"},
	{"sample2.abc, 8", "each", "3.1", "d: is an unknown field; only before a bar line it is a note and a repeat"},
	{"sample3.abc, 1", "abc2midi", "3.1.6", "M:2/4 3/4 is no meter, so the unit is an eighth"},
	{"sample3.abc, 4", "abc2midi", "7.4", "an overlay may last for several bars"},
	{"sample4.abc, 1", "abcjs", "2.2.1", "the head of a tune is fields; no music before K:"},
	{"sample4.abc, 2", "each", "4.13", "a tuplet inside a tuplet is none of the standard's"},
	{"sample4.abc, 5", "abcjs", "4.11, 4.17", "ties inside a chord hold to its next chord"},
	{"sample5.abc, 3", "abc2midi", "7", "a voice may be named 1s, which is not 1"},
	{"sample5.abc, 3", "abcjs", "7", "a voice goes on at its own pace"},
}
