package vary

import (
	"strconv"
	"strings"

	"github.com/stretchr/testify/require"

	"readyhand/engine/choice"
	"readyhand/engine/hand"
	"readyhand/engine/harp"
	"readyhand/engine/pitch"
	"readyhand/engine/score"
	"readyhand/engine/source"
	"readyhand/engine/tune"
)

// tester is a test or a drawn case of one.
type tester interface {
	require.TestingT
	Helper()
}

// written makes a tune of one voice, played once through, from words such as
//
//	C4:1/8  E4+G4:1/4  z:1/8  {D4}C4:1/4  C4!turn!:1/4  C4!2:1/8  C4_:1/4  C4:1/8,
//
// a length after ":", grace notes in braces, signs between "!", a finger after
// "!", "_" a note tied to the one before, "," the end of a phrase. Note n stands
// at bytes 10n to 10n+1 of the text, its grace notes from 10n-5, signs at 10n+5.
func written(t tester, text string) tune.Tune {
	t.Helper()
	var v tune.Voice
	number, onset := 0, tune.NewFrac(0, 1)
	for i, word := range strings.Fields(text) {
		e := tune.Event{Onset: onset, Bar: 1}
		word, e.PhraseEnd = strings.CutSuffix(word, ",")
		heads, length, ok := strings.Cut(word, ":")
		require.True(t, ok, word)
		e.Length = fraction(t, length)
		graces, after, graced := strings.Cut(strings.TrimPrefix(heads, "{"), "}")
		if graced {
			heads = after
		} else {
			graces = ""
		}
		if heads != "z" {
			for _, head := range strings.Split(heads, "+") {
				number++
				name, signs, _ := strings.Cut(head, "!")
				name, tied := strings.CutSuffix(name, "_")
				n := tune.Note{Number: number, Pitch: pitchOf(t, name), Tied: tied, Source: at(10 * number)}
				for sign := range strings.SplitSeq(strings.Trim(signs, "!"), "!") {
					if f, err := strconv.Atoi(sign); err == nil {
						n.Finger = int8(f)
					} else if sign != "" {
						e.Decorations = append(e.Decorations, tune.Decoration{Name: sign, Source: at(10*number + 5)})
					}
				}
				e.Notes = append(e.Notes, n)
			}
			for k, g := range strings.FieldsFunc(graces, func(r rune) bool { return r == '-' }) {
				e.Graces = append(e.Graces, tune.Grace{Pitch: pitchOf(t, g), Source: at(10*number - 5 + k)})
			}
			e.Source = at(10 * number)
		}
		v.Events = append(v.Events, e)
		v.Played = append(v.Played, tune.Step{Event: i, Pass: 1, Onset: onset})
		onset = onset.Add(e.Length)
	}
	return tune.Tune{Key: pitch.Key{Name: "Eb major", Alter: [7]int8{2: -1, 5: -1, 6: -1}}, Tempo: tune.Tempo{QuarterMS: 600},
		Voices: []tune.Voice{v}, Header: at(0)}
}

// repeated plays the tune's only voice once more, as a second pass.
func repeated(t tune.Tune) tune.Tune {
	v := &t.Voices[0]
	last := v.Played[len(v.Played)-1]
	end := last.Onset.Add(v.Events[last.Event].Length)
	for _, s := range v.Played {
		v.Played = append(v.Played, tune.Step{Event: s.Event, Pass: 2, Onset: end.Add(s.Onset)})
	}
	return t
}

func at(from int) source.Span { return source.Span{From: int32(from), To: int32(from + 1)} }

func pitchOf(t tester, name string) pitch.Pitch {
	t.Helper()
	p, ok := pitch.Parse(name)
	require.True(t, ok, name)
	return p
}

func fraction(t tester, text string) tune.Frac {
	t.Helper()
	n, d, _ := strings.Cut(text, "/")
	over, err := strconv.Atoi(n)
	require.NoError(t, err, text)
	under, err := strconv.Atoi(d)
	require.NoError(t, err, text)
	return tune.NewFrac(int64(over), int64(under))
}

// chosen reads a choice.
func chosen(t tester, text string) choice.Choice {
	t.Helper()
	c, dropped := choice.Parse(text)
	require.Empty(t, dropped)
	return c
}

// usual writes a tune out for the usual harp and right hand.
func usual(t tester, tn tune.Tune, said string) (score.Score, []source.Remark) {
	t.Helper()
	return Score(tn, 0, chosen(t, said), harp.Default(), hand.Usual("right"))
}

// line writes a score's events in short: strings' pitches, since, length, and
// "|" before an event that the hand comes to from off the strings.
func line(s score.Score) string {
	var words []string
	for _, e := range s.Events {
		var heads []string
		for _, n := range e.Notes {
			heads = append(heads, n.ID()+"="+s.Harp.Strings[n.String].Sounding(s.Raised[n.String]).String())
		}
		word := strings.Join(heads, "+") + ":" + strconv.Itoa(int(e.Since)) + "," + strconv.Itoa(int(e.Length))
		if e.Forced {
			word = "| " + word
		}
		if e.Rolled {
			word += " rolled"
		}
		words = append(words, word)
	}
	return strings.Join(words, " ")
}

// sites writes a score's sites in short: gap, note, where, and each ornament
// with its likelihood, "+" before the one that sounds.
func sites(s score.Score) string {
	var words []string
	for j, g := range s.Gaps {
		for _, site := range g.Sites {
			word := strconv.Itoa(j) + ":" + score.ID(site.Written, site.Pass)
			if site.After {
				word += "after"
			}
			for _, o := range site.Ornaments {
				sign := " "
				if o.On {
					sign = " +"
				}
				word += sign + o.Name + strconv.Itoa(int(o.Likelihood))
			}
			words = append(words, word)
		}
	}
	return strings.Join(words, "; ")
}

// kinds lists remarks in short: "error no-lever @10".
func kinds(remarks []source.Remark) []string {
	list := []string{}
	for _, r := range remarks {
		list = append(list, r.Severity.String()+" "+r.Kind+" @"+strconv.Itoa(int(r.From)))
	}
	return list
}
