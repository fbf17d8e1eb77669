package read

import (
	"readyhand/engine/source"
)

// kind is one sort of remark.
type kind int

const (
	accidentalAlone kind = iota
	badBroken
	badEnding
	badKey
	badLength
	badMeter
	badNoteLength
	badTempo
	badTuplet
	barTooLong
	barTooShort
	chordLengths
	chordSign
	decorationAlone
	emptyChord
	emptyLine
	endingMissing
	endingWithoutRepeat
	fingerNotUsed
	fingerOnChord
	graceAlone
	graceSign
	jumpNotFollowed
	lastRepeat
	layerAlone
	lengthBefore
	macro
	microtone
	musicAfterEnd
	noKey
	noNotes
	octaveShift
	oldChord
	oldLineBreak
	oldTempo
	ornamentMissing
	outOfRange
	partMissing
	partOrder
	partUnplayed
	phraseApart
	phraseNowhere
	plainWords
	playedTooLong
	readyEmpty
	readyMisspelt
	repeatBack
	repeatOpen
	restWithoutMeter
	secondTune
	sharpAfter
	slurOdd
	strayColon
	strayNumber
	tempoChange
	tempoRange
	tempoWords
	textUnclosed
	tieAlone
	tooLong
	tooManyNotes
	tooManyRemarks
	tooManySettings
	tooManyVoices
	tupletShort
	twoFingers
	unclosedChord
	unclosedDecoration
	unclosedField
	unclosedGraces
	unclosedQuote
	unknownDecoration
	unknownField
	unknownLetter
	unknownSign
	userSymbols
	veryShort
	voicesApart
	kinds // how many there are
)

// kindRows are the stable name and the severity of every kind of remark. What
// a remark says stands where it is found out.
var kindRows = [kinds]struct {
	name     string
	severity source.Severity
}{
	accidentalAlone:     {"accidental-alone", source.Error},
	badBroken:           {"bad-broken-rhythm", source.Error},
	badEnding:           {"bad-ending", source.Error},
	badKey:              {"bad-key", source.Error},
	badLength:           {"bad-length", source.Error},
	badMeter:            {"bad-meter", source.Error},
	badNoteLength:       {"bad-note-length", source.Error},
	badTempo:            {"bad-tempo", source.Error},
	badTuplet:           {"bad-tuplet", source.Error},
	barTooLong:          {"bar-too-long", source.Warning},
	barTooShort:         {"bar-too-short", source.Warning},
	chordLengths:        {"chord-lengths", source.Note},
	chordSign:           {"chord-sign", source.Warning},
	decorationAlone:     {"decoration-alone", source.Warning},
	emptyChord:          {"empty-chord", source.Warning},
	emptyLine:           {"empty-line", source.Warning},
	endingMissing:       {"ending-missing", source.Warning},
	endingWithoutRepeat: {"ending-without-repeat", source.Warning},
	fingerNotUsed:       {"finger-not-used", source.Warning},
	fingerOnChord:       {"finger-on-chord", source.Warning},
	graceAlone:          {"grace-alone", source.Warning},
	graceSign:           {"grace-sign", source.Warning},
	jumpNotFollowed:     {"jump-not-followed", source.Warning},
	lastRepeat:          {"last-ending-repeat", source.Note},
	layerAlone:          {"layer-alone", source.Warning},
	lengthBefore:        {"length-before-tune", source.Warning},
	macro:               {"macro", source.Warning},
	microtone:           {"microtone", source.Warning},
	musicAfterEnd:       {"music-after-end", source.Error},
	noKey:               {"no-key", source.Note},
	noNotes:             {"no-notes", source.Error},
	octaveShift:         {"octave-shift", source.Warning},
	oldChord:            {"old-chord", source.Warning},
	oldLineBreak:        {"old-line-break", source.Note},
	oldTempo:            {"old-tempo", source.Note},
	ornamentMissing:     {"ornament-missing", source.Warning},
	outOfRange:          {"out-of-range", source.Error},
	partMissing:         {"part-missing", source.Warning},
	partOrder:           {"part-order", source.Warning},
	partUnplayed:        {"part-unplayed", source.Warning},
	phraseApart:         {"phrase-apart", source.Note},
	phraseNowhere:       {"phrase-nowhere", source.Warning},
	plainWords:          {"plain-text", source.Note},
	playedTooLong:       {"played-too-long", source.Error},
	readyEmpty:          {"ready-empty", source.Warning},
	readyMisspelt:       {"ready-misspelt", source.Warning},
	repeatBack:          {"repeat-from-double-bar", source.Note},
	repeatOpen:          {"repeat-open", source.Warning},
	restWithoutMeter:    {"rest-without-meter", source.Warning},
	secondTune:          {"second-tune", source.Error},
	sharpAfter:          {"sharp-after", source.Warning},
	slurOdd:             {"slur-odd", source.Note},
	strayColon:          {"stray-colon", source.Warning},
	strayNumber:         {"stray-number", source.Warning},
	tempoChange:         {"tempo-change", source.Warning},
	tempoRange:          {"tempo-range", source.Error},
	tempoWords:          {"tempo-words", source.Note},
	textUnclosed:        {"text-unclosed", source.Error},
	tieAlone:            {"tie-alone", source.Warning},
	tooLong:             {"too-long", source.Error},
	tooManyNotes:        {"too-many-notes", source.Error},
	tooManyRemarks:      {"too-many-remarks", source.Note},
	tooManySettings:     {"too-many-settings", source.Error},
	tooManyVoices:       {"too-many-voices", source.Error},
	tupletShort:         {"tuplet-short", source.Warning},
	twoFingers:          {"two-fingers", source.Warning},
	unclosedChord:       {"unclosed-chord", source.Error},
	unclosedDecoration:  {"unclosed-decoration", source.Warning},
	unclosedField:       {"unclosed-field", source.Error},
	unclosedGraces:      {"unclosed-graces", source.Error},
	unclosedQuote:       {"unclosed-quote", source.Error},
	unknownDecoration:   {"unknown-decoration", source.Warning},
	unknownField:        {"unknown-field", source.Warning},
	unknownLetter:       {"unknown-letter", source.Warning},
	unknownSign:         {"unknown-sign", source.Warning},
	userSymbols:         {"user-symbols", source.Warning},
	veryShort:           {"very-short", source.Warning},
	voicesApart:         {"voices-apart", source.Warning},
}

// say adds a remark, one at a place of a kind. Past mostKept nothing more is kept.
func (r *reader) say(k kind, place source.Span, message, suggestion string) {
	if len(r.remarks) < mostKept {
		r.remarks = append(r.remarks, source.Remark{
			Span: place, Severity: kindRows[k].severity, Kind: kindRows[k].name, Message: message, Suggestion: suggestion,
		})
	}
}

// thinned gives the remarks in the order of the text, as many as can be read.
func (r *reader) thinned() []source.Remark {
	kept, left := source.Thin(source.Sort(r.remarks), mostOfAKind, mostRemarks)
	if left > 0 {
		r.remarks = nil
		r.say(tooManyRemarks, kept[len(kept)-1].Span, "There is more to be said of this tune; only the gravest remarks are shown.", "Put these right first.")
		kept = append(kept, r.remarks...)
	}
	return kept
}
