package agree_test

import (
	"strings"
)

// form is how bars lie in a tune: each @ and letter is a bar, the rest is
// written as it is; order is the bars as they are played. Other voices have bars
// of their own, named by letters too.
type form struct {
	text  string
	order string
	other string   // a second voice's bars as they are played
	over  string   // bars over which another part lies
	head  []string // lines of the head
}

const straightOn = "@A | @B | @C | @D |]"

// forms are the shapes of bars, repeats, parts and voices.
var forms = []feature{
	{name: "bars", section: "4.8", form: form{text: straightOn, order: "ABCD"}},
	{name: "bar lines of all shapes", section: "4.8", form: form{text: "[| @A || @B ||| @C .| @D [|] @E |] @F |]", order: "ABCDEF"}},
	{name: "lines", section: "6.1.1", form: form{text: "@A | @B |\n@C | @D |\n@E | @F |]", order: "ABCDEF"}},
	{name: "a line that begins with its bar line", section: "4.8", form: form{text: "| @A | @B |\n| @C | @D |]", order: "ABCD"}},
	{name: "no last bar line", section: "4.8", form: form{text: "@A | @B | @C | @D", order: "ABCD"}},
	{name: "repeat", section: "4.8", form: form{text: "|: @A | @B :| @C | @D |]", order: "ABABCD"}},
	{name: "two repeats", section: "4.8", form: form{text: "|: @A | @B :|\n|: @C | @D :|", order: "ABABCDCD"}},
	{name: "repeat after repeat", section: "4.8", form: form{text: "|: @A | @B :: @C | @D :|", order: "ABABCDCD"}},
	{name: "repeat after repeat, long", section: "4.8", form: form{text: "|: @A | @B :|: @C | @D :|", order: "ABABCDCD"}},
	{name: "repeat after repeat, longer", section: "4.8", form: form{text: "|: @A | @B :||: @C | @D :|", order: "ABABCDCD"}},
	{name: "repeat with thick bars", section: "4.8", form: form{text: "[|: @A | @B :|] @C | @D ||: @E | @F :||", order: "ABABCDEFEF"}},
	{name: "repeat of the start, not marked", section: "4.8", form: form{text: "@A | @B :| @C | @D |]", order: "ABABCD"}},
	{name: "second repeat not marked", section: "4.8", form: form{text: "|: @A | @B :| @C | @D :|", order: "ABABCDCD"}},
	{name: "repeat not marked, after a double bar", section: "4.8", form: form{text: "@A | @B || @C | @D :|", order: "ABCDABCD"}},
	{name: "repeat not marked, after double bars", section: "4.8", form: form{text: "@A | @B ||\n@C | @D |]\n@E | @F :|", order: "ABCDEFABCDEF"}},
	{name: "endings not marked, after a double bar", section: "4.8, 4.9", form: form{text: "@A | @B || @C |1 @D :|2 @E |]", order: "ABCDABCE"}},
	{name: "repeat not marked, after a pickup and a double bar", section: "4.8", form: form{text: "@A || @B | @C :|\n@D | @E :|", order: "ABCABCDEDE"}},
	{name: "second repeat not marked, after a double bar", section: "4.8", form: form{text: "@A | @B :|\n@C || @D | @E :|", order: "ABABCDEDE"}},
	{name: "end of a repeat after a bar that is not seen", section: "4.8", form: form{text: "@A | @B [|]:|\n@C | @D |]", order: "ABABCD"}},
	{name: "end of a repeat after a thick bar", section: "4.8", form: form{text: "|: @A | @B |]:| @C |]", order: "ABABC"}},
	{name: "start of a repeat at the end", section: "4.8", form: form{text: "@A | @B :| @C |:|", order: "ABABC"}},
	{name: "repeat never closed", section: "4.8", form: form{text: "@A | @B |: @C | @D |]", order: "ABCD"}},
	{name: "repeat three times", section: "4.8", form: form{text: "|:: @A | @B ::| @C | @D |]", order: "ABABABCD"}},
	{name: "end of three times, alone", section: "4.8", form: form{text: "@A | @B ::| @C | @D |]", order: "ABABCD"}},
	{name: "end of three times, alone, then a repeat past a double bar", section: "4.8", form: form{text: "@A ::| @B || @C :| @D |]", order: "AABCBCD"}},
	{name: "brackets after the numbers of endings", section: "4.9", form: form{text: "|: @A |1) @B :|2) @C |]", order: "ABAC"}},
	{name: "endings", section: "4.9", form: form{text: "|: @A | @B |1 @C :|2 @D |]", order: "ABCABD"}},
	{name: "endings in brackets", section: "4.9", form: form{text: "|: @A | @B | [1 @C :| [2 @D |]", order: "ABCABD"}},
	{name: "endings, the bracket at the bar line", section: "4.9", form: form{text: "|: @A | @B |[1 @C :|[2 @D |]", order: "ABCABD"}},
	{name: "endings, start not marked", section: "4.9", form: form{text: "@A | @B |1 @C :|2 @D |]", order: "ABCABD"}},
	{name: "endings, then more", section: "4.9", form: form{text: "|: @A |1 @B :|2 @C ||\n@D | @E |]", order: "ABACDE"}},
	{name: "endings twice", section: "4.9", form: form{text: "|: @A |1 @B :|2 @C :|\n|: @D |1 @E :|2 @F :|", order: "ABACDEDF"}},
	{name: "endings twice, closed by a double bar", section: "4.9", form: form{text: "|: @A |1 @B :|2 @C ||\n|: @D |1 @E :|2 @F |]", order: "ABACDEDF"}},
	{name: "long endings", section: "4.9", form: form{text: "|: @A |1 @B | @C :|2 @D | @E |]", order: "ABCADE"}},
	{name: "three endings", section: "4.10", form: form{text: "|: @A |1 @B :|2 @C :|3 @D |]", order: "ABACAD"}},
	{name: "endings of several passes", section: "4.10", form: form{text: "|: @A |1,3 @B :|2 @C :|", order: "ABACAB"}},
	{name: "endings from one pass to another", section: "4.10", form: form{text: "|: @A |1-3 @B :|4 @C |]", order: "ABABABAC"}},
	{name: "endings of four passes", section: "4.10", form: form{text: "|: @A |1,3 @B :|2,4 @C :|", order: "ABACABAC"}},
	{name: "repeat after a pickup", section: "4.8", form: form{text: "@A |: @B | @C :| @D |]", order: "ABCBCD"}},
	{name: "three repeats, none marked", section: "4.8", form: form{text: "@A | @B :| @C :| @D :|", order: "ABABCCDD"}},
	{name: "repeat closed by a thick bar", section: "4.8", form: form{text: "|: @A | @B :|] @C |]", order: "ABABC"}},
	{name: "repeat signs apart from their bars", section: "4.8", form: form{text: "|: @A | @B : | @C |]", order: "ABC"}},
	{name: "start of a repeat apart from its bar", section: "4.8", form: form{text: "@A | : @B | @C :| @D |]", order: "ABCABCD"}},
	{name: "two repeats, the first not marked", section: "4.8", form: form{text: "@A | @B :: @C | @D :|", order: "ABABCDCD"}},
	{name: "endings, then a repeat not marked", section: "4.8, 4.9", form: form{text: "|: @A |1 @B :|2 @C ||\n@D | @E :|", order: "ABACDEDE"}},
	{name: "endings, then a repeat", section: "4.9", form: form{text: "|: @A |1 @B :|2 @C |: @D | @E :|", order: "ABACDEDE"}},
	{name: "endings, then a repeat, with colons", section: "4.9", form: form{text: "|: @A |1 @B :|2 @C :: @D | @E :|", order: "ABACDEDE"}},
	{name: "endings without a repeat sign", section: "4.9", form: form{text: "|: @A |1 @B |2 @C |]", order: "ABAC"}},
	{name: "endings after a plain bar line", section: "4.9", form: form{text: "@A | @B | [1 @C :| [2 @D |]", order: "ABCABD"}},
	{name: "second ending alone", section: "4.9", form: form{text: "@A | @B ||2 @C | @D |]", order: "ABCD"}},
	{name: "endings written apart", section: "4.9", form: form{text: "|: @A | @B |1 @C :| [2 @D ||", order: "ABCABD"}},
	{name: "endings twice, none marked", section: "4.8, 4.9", form: form{text: "@A |1 @B :|2 @C ||\n@D |1 @E :|2 @F |]", order: "ABACDEDF"}},
	{name: "endings twice, a plain bar between", section: "4.9", form: form{text: "@A |1 @B :|2 @C |\n@D |1 @E :|2 @F |]", order: "ABACDEDF"}},
	{name: "endings on lines of their own", section: "4.9", form: form{text: "|: @A | @B\n|1 @C | @D :|\n|2 @E | @F |]", order: "ABCDABEF"}},
	{name: "endings, the second on a line gone on", section: "4.9, 6.1.1", form: form{text: "@A | @B [1 @C :|\\\n                [2 @D ||\n@E | @F |]", order: "ABCABDEF"}},
	{name: "endings inside one bar", section: "4.9", form: form{text: "|: @A | @B [1 @C :| [2 @D |]", order: "ABCABD"}},
	{name: "order of parts", section: "3.1.9", form: form{head: []string{"P:AABA"}, text: "P:A\n@A | @B |\nP:B\n@C | @D |]", order: "ABABCDAB"}},
	{name: "order of parts with counts", section: "3.1.9", form: form{head: []string{"P:A2B2"}, text: "P:A\n@A | @B |\nP:B\n@C |]", order: "ABABCC"}},
	{name: "order of parts in brackets", section: "3.1.9", form: form{head: []string{"P:(AB)2C"}, text: "P:A\n@A |\nP:B\n@B |\nP:C\n@C | @D |]", order: "ABABCD"}},
	{name: "order of parts with dots", section: "3.1.9", form: form{head: []string{"P:A.B.A"}, text: "P:A\n@A | @B |\nP:B\n@C |]", order: "ABCAB"}},
	{name: "order of parts with repeats", section: "3.1.9", form: form{head: []string{"P:ABA"}, text: "P:A\n|: @A | @B :|\nP:B\n@C |]", order: "ABABCABAB"}},
	{name: "words for an order of parts", section: "3.1.9", form: form{head: []string{"P:as printed"}, text: "P:A\n@A | @B |\nP:B\n@C |]", order: "ABC"}},
	{name: "an order of parts with words", section: "3.1.9", form: form{head: []string{"P:AAB (twice)"}, text: "P:A\n@A | @B |\nP:B\n@C |]", order: "ABC"}},
	{name: "an order of parts with spaces", section: "3.1.9", form: form{head: []string{"P:A A B"}, text: "P:A\n@A | @B |\nP:B\n@C |]", order: "ABABC"}},
	{name: "parts inside the line", section: "3.1.9", form: form{head: []string{"P:ABA"}, text: "[P:A] @A | @B | [P:B] @C | @D |]", order: "ABCDAB"}},
	{name: "names of parts, no order", section: "3.1.9", form: form{text: "P:A\n|: @A | @B :|\nP:B\n@C | @D |]", order: "ABABCD"}},
	{name: "order of parts, of one part", section: "3.1.9", form: form{head: []string{"P:A"}, text: "P:A\n@A | @B |]", order: "AB"}},
	{name: "a part before its order", section: "3.1.9", form: form{head: []string{"P:AAB"}, text: "@A |\nP:A\n@B |\nP:B\n@C |]", order: "ABBC"}},
	{name: "music before its voice", section: "7", form: form{text: "@A | @B |\nV:1\n@E |]\nV:2\n@C | @D |]", order: "ABE", other: "CD"}},
	{name: "two voices", section: "7", form: form{text: "V:1\n@A | @B |]\nV:2\n@C | @D |]", order: "AB", other: "CD"}},
	{name: "two voices in turn", section: "7", form: form{head: []string{"V:1", "V:2 clef=bass"}, text: "V:1\n@A |\nV:2\n@C |\nV:1\n@B |]\nV:2\n@D |]", order: "AB", other: "CD"}},
	{name: "two voices inside the line", section: "7.1", form: form{head: []string{`V:R clef=treble name="Right"`, `V:L clef=bass name="Left"`}, text: "[V:R] @A | @B |\n[V:L] @C | @D |\n[V:R] @E |]\n[V:L] @F |]", order: "ABE", other: "CDF"}},
	{name: "two voices, both repeated", section: "7", form: form{text: "V:1\n|: @A | @B :|\nV:2\n|: @C | @D :|", order: "ABAB", other: "CDCD"}},
	{name: "a voice by itself", section: "7", form: form{head: []string{"V:1 name=Harp"}, text: "V:1\n@A | @B |]", order: "AB"}},
	{name: "overlay", section: "7.4", form: form{text: straightOn, order: "ABCD", over: "B"}},
	{name: "overlays", section: "7.4", form: form{text: straightOn, order: "ABCD", over: "ABCD"}},
	{name: "overlay under a repeat", section: "7.4, 4.8", form: form{text: "|: @A | @B :| @C |]", order: "ABABC", over: "B"}},
}

// lay writes the bars of a form, and gives its notes in both orders.
func (g *inventor) lay(shape form, bar func(name byte) measure) (text string, written, played []sound) {
	bars := map[byte]measure{}
	var first, second []measure
	var out strings.Builder
	for i := 0; i < len(shape.text); i++ {
		if shape.text[i] != '@' {
			out.WriteByte(shape.text[i])
			continue
		}
		i++
		name := shape.text[i]
		m := bar(name)
		if strings.IndexByte(shape.over, name) >= 0 {
			m = g.overlay(m)
		}
		bars[name] = m
		out.WriteString(m.text)
		if strings.IndexByte(shape.other, name) >= 0 {
			second = append(second, m)
		} else {
			first = append(first, m)
		}
	}
	inOrder := func(names string) (all []measure) {
		for _, name := range []byte(names) {
			all = append(all, bars[name])
		}
		return all
	}
	written = append(sorted(play(first)), sorted(play(second))...)
	played = append(sorted(play(inOrder(shape.order))), sorted(play(inOrder(shape.other)))...)
	return out.String(), written, played
}

// overlay lays another part over a bar.
func (g *inventor) overlay(m measure) measure {
	length := total(m.layers[0])
	var all []cell
	sum := f(0, 1)
	for sum.Less(length) {
		t := one
		if left := length.Sub(sum); left.Less(g.unit) {
			t = left.Mul(f(g.unit.D, g.unit.N))
		}
		all = append(all, g.note(t))
		sum = sum.Add(all[len(all)-1].length())
	}
	part := join(" ", all...)
	m.text += " & " + part.text
	m.layers = append(m.layers, part.events)
	return m
}
