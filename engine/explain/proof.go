package explain

import (
	"readyhand/engine/plan"
	"readyhand/engine/score"
)

// Proof says how it is known that no fingering takes less effort; "" where it is not.
func Proof(s *score.Score, p *plan.Plan) string {
	if p.Proof.Moments == 0 || p.Proof.Moments < len(s.Events) {
		return ""
	}
	const text = "Checked note by note: "
	like := ""
	if p.Likeness.Figures > 0 {
		like = ", with bars that are the same played the same,"
	}
	if gap := Effort(p.Cost - p.Proof.Least); gap != "0" {
		return text + "no fingering under these rules" + like + " takes more than " + gap + " less effort."
	}
	return text + "no fingering under these rules" + like + " takes less effort."
}
