package plan

import (
	"readyhand/engine/rule"
	"readyhand/engine/score"
)

type Fault struct{}

func Judge(s *score.Score, r *rule.Rules, p *Plan) []Fault { return nil }
