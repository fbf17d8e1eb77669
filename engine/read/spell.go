package read

import (
	"strings"

	"readyhand/engine/pitch"
	"readyhand/engine/tune"
)

// covered covers what has a meaning of its own under the music (ABC 2.1, 5.1).
var covered = strings.NewReplacer("~", `\~`, " ", "~", "-", `\-`, "_", `\_`, "*", `\*`, "|", `\|`)

// escaped covers what has a meaning of its own in a text (ABC 2.1, 8.2).
func escaped(s string) string {
	if !strings.ContainsAny(s, `\%&`) {
		return s
	}
	return strings.NewReplacer(`\`, `\\`, "%", `\%`, "&", `\&`).Replace(s)
}

// meterText, keyText, tempoText and voiceText are what stands after M:, K:, Q:
// and V:.
func meterText(m tune.Meter) string {
	if m.Beats == 0 {
		return "none"
	}
	return m.Text
}

// keyText makes "D phrygian with F#, C natural" "D phrygian ^f =c", and what has
// accidentals and no mode exp.
func keyText(k pitch.Key) string {
	name, list, _ := strings.Cut(k.Name, " with ")
	tonic, mode, _ := strings.Cut(name, " ")
	switch {
	case name == noSignature && list == "":
		return "none"
	case name == noSignature:
		name = "exp"
	case mode == "":
		name = tonic + " exp"
	}
	for _, item := range strings.Split(list, ", ") {
		if p, ok := pitch.Parse(strings.TrimSuffix(item, " natural") + "4"); ok {
			name += " " + [...]string{"__", "_", "=", "^", "^^"}[p.Alter+2] + strings.ToLower("CDEFGAB"[p.Letter:p.Letter+1])
		}
	}
	return name
}

func tempoText(q tune.Tempo) string {
	text := ""
	if q.Words != "" {
		text = `"` + escaped(q.Words) + `"`
	}
	if q.Beats > 0 {
		text += " " + number(q.Beat.N) + "/" + number(q.Beat.D) + "=" + number(q.Beats)
	}
	return strings.TrimSpace(text)
}

func voiceText(v tune.Voice) string {
	text := v.ID
	if v.Name != "" {
		text += ` name="` + escaped(v.Name) + `"`
	}
	if v.Clef != "" {
		text += " clef=" + v.Clef
	}
	return text
}
