package vary

import (
	"slices"
	"strconv"
	"strings"

	"readyhand/engine/choice"
	"readyhand/engine/harp"
	"readyhand/engine/pitch"
	"readyhand/engine/source"
	"readyhand/engine/tune"
)

// Transpose moves a tune as the choice has it, counted from where it was read, to
// a key whose every letter the harp's levers can give. By strings, the interval is
// the one of the tune's own scale if they can, else the one nearest to it; to a
// key, the octave in which the harp lacks the fewest notes, the nearest first. A
// key that cannot be is an error, and the tune stays as it was read.
func Transpose(t tune.Tune, h harp.Harp, to choice.Transpose) (tune.Tune, []source.Remark) {
	t, _ = t.MovedTo(tune.Move{})
	if !to.ToKey && to.Strings == 0 {
		return t, nil
	}
	var best tune.Tune
	least := rank{1 << 30, 0}
	for _, m := range moves(t, to) {
		moved, ok := t.MovedTo(m.Move)
		if !ok || !gives(h, moved.Key) {
			continue
		}
		if r := (rank{lacks(h, moved), m.from}); r.less(least) {
			best, least = moved, r
		}
	}
	if least.lacks < 1<<30 {
		return best, nil
	}
	return t, []source.Remark{noKey(t, h, to)}
}

// rank orders where a tune may go: how many of its notes the harp lacks there, and
// how far that is from what was asked.
type rank struct{ lacks, from int }

func (r rank) less(s rank) bool { return r.lacks < s.lacks || r.lacks == s.lacks && r.from < s.from }

// candidate is a move and how far it is from what was asked.
type candidate struct {
	tune.Move
	from int
}

// moves lists where a tune may go.
func moves(t tune.Tune, to choice.Transpose) (list []candidate) {
	tonic, has := tonicOf(t.Key)
	if to.ToKey {
		if !has {
			return nil
		}
		letters, semitones := to.Tonic.Step()-tonic.Step(), to.Tonic.Midi()-tonic.Midi()
		for octave := -3; octave <= 3; octave++ {
			m := tune.Move{Letters: letters + 7*octave, Semitones: semitones + 12*octave}
			list = append(list, candidate{m, 2*max(m.Semitones, -m.Semitones) + min(1, max(0, m.Semitones))}) // of two as near, the lower
		}
		return list
	}
	if !has {
		tonic = pitch.Pitch{Octave: 4}
	}
	there := pitch.AtStep(tonic.Step() + to.Strings)
	there.Alter = t.Key.Alter[there.Letter]
	own := there.Midi() - tonic.Midi()
	for _, off := range []int{0, -1, 1, -2, 2} {
		list = append(list, candidate{tune.Move{Letters: to.Strings, Semitones: own + off}, 2*max(off, -off) + min(1, max(0, off))})
	}
	return list
}

// tonicOf gives a key's tonic, in the octave from middle C.
func tonicOf(k pitch.Key) (pitch.Pitch, bool) {
	word, _, _ := strings.Cut(k.Name, " ")
	return pitch.Parse(word + "4")
}

// gives reports whether levers give every letter of a key.
func gives(h harp.Harp, k pitch.Key) bool {
	for letter, alter := range k.Alter {
		i := slices.IndexFunc(h.Strings, func(s harp.String) bool { return int(s.Pitch.Letter) == letter })
		if i >= 0 && alter != h.Strings[i].Pitch.Alter && alter != h.Strings[i].Pitch.Alter+1 {
			return false
		}
	}
	return true
}

// lacks counts the notes of a tune that a harp cannot give.
func lacks(h harp.Harp, t tune.Tune) int {
	count := 0
	for _, v := range t.Voices {
		for _, e := range v.Events {
			for _, n := range e.Notes {
				if _, _, ok := h.Find(n.Pitch); !ok {
					count++
				}
			}
		}
	}
	return count
}

// noKey says why a tune cannot be moved, and where it can go instead.
func noKey(t tune.Tune, h harp.Harp, to choice.Transpose) source.Remark {
	r := source.Remark{Span: asked(t, "transpose"), Severity: source.Error, Kind: "no-such-key"}
	tonic, has := tonicOf(t.Key)
	if !has {
		r.Message = "This tune has no key that could be moved; it stays as it is written."
		r.Suggestion = "Write its key in the K: line, or move it by strings, such as transpose 2."
		return r
	}
	_, mode, _ := strings.Cut(t.Key.Name, " ")
	if mode != "" {
		mode = " " + mode
	}
	var can []string
	for letter := range 7 {
		for _, alter := range []int8{-1, 0, 1} {
			p := pitch.Pitch{Letter: int8(letter), Octave: 4, Alter: alter}
			k := t.Key.Shift(p.Step()-tonic.Step(), p.Midi()-tonic.Midi())
			if gives(h, k) {
				can = append(can, p.Name())
			}
		}
	}
	where := to.Tonic.Name() + mode
	if !to.ToKey {
		where = "a key " + strconv.Itoa(max(to.Strings, -to.Strings)) + " strings from here"
	}
	r.Message = "The levers of this harp, tuned to " + h.Tuning + ", do not give " + where + "; the tune stays as it is written."
	r.Suggestion = "Write transpose and one of " + strings.Join(can, ", ") + "."
	if len(can) == 0 {
		r.Suggestion = "Choose a harp tuned otherwise."
	}
	return r
}
