package solve_test

import (
	"fmt"

	"readyhand/engine/hand"
	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
	"readyhand/engine/solve"
)

// less says what is wrong with the first of two prices being the lower.
func less(a, b plan.Cost) string {
	if a < b {
		return ""
	}
	return fmt.Sprintf("%d is not less than %d", a, b)
}

func unless(holds bool, wrong string) string {
	if holds {
		return ""
	}
	return wrong
}

func first(wrong ...string) string {
	for _, w := range wrong {
		if w != "" {
			return w
		}
	}
	return ""
}

// facts are check values that are not one fingering of one passage.
var facts = []fact{
	{"K1", hard, "fingers 1 to 4, at most four notes at once", in{}, sibelius + "; Rimsky-Korsakov, Principles of Orchestration", func(x trial) string {
		four, five := x.write("{0 +1 +2 +3}"), x.write("{0 +1 +2 +3 +4}")
		return first(unless(len(x.ways(&four.Events[0])) == 1, "four notes"), unless(len(x.ways(&five.Events[0])) == 0, "five notes"))
	}},
	{"K2", hard, "a tenth is held, more is rolled", in{}, sibelius, func(x trial) string {
		tenth, eleventh, rolled := x.write("{0 +9}"), x.write("{0 +10}"), x.write("~{0 +10}")
		return first(unless(len(x.ways(&tenth.Events[0])) > 0, "the tenth cannot be held"),
			unless(len(x.ways(&eleventh.Events[0])) == 0, "the eleventh can be held"),
			unless(len(x.ways(&rolled.Events[0])) > 0, "the eleventh cannot be rolled"))
	}},
	{"K11", hard, "4 2 1 in part where the tenth is too wide", in{spacing: 16000}, practice, func(x trial) string {
		held := x.write("{0 +4 +9}")
		return first(unless(len(x.ways(&held.Events[0])) == 0, "it can be held"), unless(x.answer("~{0 +4 +9}") == "{4 2 1}", x.answer("~{0 +4 +9}")))
	}},
	{"K18", hard, "one finger three times is dearer than 3 2 1 and 4 3 2", in{ms: []int32{60, 90, 120}}, "derived from K18, " + practice, func(x trial) string {
		dear := max(x.price("0 0 0", "3 2 1"), x.price("0 0 0", "4 3 2"))
		for _, f := range []string{"1 1 1", "2 2 2", "3 3 3", "4 4 4"} {
			if wrong := less(dear, x.price("0 0 0", f)); wrong != "" {
				return f + ": " + wrong
			}
		}
		return ""
	}},
	{"K18b", soft, "before a higher string 4 3 2 is cheaper than 3 2 1", in{ms: []int32{60, 90, 120}}, "derived from K18, " + practice, func(x trial) string {
		return less(x.price("0 0 0 +2*2", "4 3 2 1"), min(x.price("0 0 0 +2*2", "3 2 1 | 1"), x.price("0 0 0 +2*2", "3 2 1 | 2")))
	}},
	{"K18c", soft, "going down by step 3 2 1 is cheaper than 4 3 2", in{ms: []int32{60, 90, 120}}, "derived from K18, " + practice, func(x trial) string {
		return less(x.begins("0 0 0 -1*2 -2*2", 3, 2, 1), x.begins("0 0 0 -1*2 -2*2", 4, 3, 2))
	}},
	{"K19, K24", hard, "a falling figure and its ornaments", in{hand: "right", ms: []int32{200, 250, 300}}, practice, falling},
	{"K30", hard, "K19 has three ways to be played from one placing", in{hand: "right", ms: []int32{250}}, practice, func(x trial) string {
		p, _ := solve.Plan(x.write("0 +1 0:cut -1"), x.rules)
		q, _ := solve.Plan(x.write("0 +1 0:upper-mordent -1"), x.rules)
		ready := p.Gaps[2].Fits[0][0].Ready == plan.InHand && q.Gaps[2].Fits[0][0].Ready == plan.InHand
		return unless(ready && len(p.Placings) == 1 && len(q.Placings) == 1, "plain, with a cut and with a mordent")
	}},
	{"K27", order, "an octave with its fifth: 4 2 1 is cheaper than 3 2 1, the more so the wider the strings", in{hand: "left", ms: []int32{500}}, practice, func(x trial) string {
		gain := func(um int32) plan.Cost {
			x.rules.Harp = spaced(x.t, um)
			other := x.price("{0 +4 +7}", "{3 2 1}")
			if other == plan.None {
				return plan.None
			}
			return other - x.price("{0 +4 +7}", "{4 2 1}")
		}
		return first(less(0, gain(13000)), less(gain(13000), gain(14500)), unless(gain(16000) == plan.None, "3 2 1 within reach at 16 mm"))
	}},
	{"C7", order, "the other notes of a tenth and an octave lie away from the thumb", in{}, legacy, func(x trial) string {
		near := x.write("{0 +2 +8 +9}")
		tenth := less(x.least("{0 +2 +4 +9}"), x.least("{0 +2 +8 +9}"))
		if len(x.ways(&near.Events[0])) == 0 {
			tenth = ""
		}
		return first(tenth, less(x.least("{0 +2 +4 +7}"), x.least("{0 +3 +6 +7}")))
	}},
	{"C9", order, "two notes inside an octave make it harder", in{}, philharmon, func(x trial) string {
		least := x.price("{0 +4 +7}", "{4 2 1}")
		wrong := less(x.price("{0 +7}", "{4 1}"), least)
		for a := int8(1); a < 7; a++ {
			for b := a + 1; b < 7; b++ {
				s := x.write(fmt.Sprintf("{0 %d %d +7}", a, b))
				if len(x.ways(&s.Events[0])) > 0 {
					wrong = first(wrong, less(least, solve.Least(s, x.rules)))
				}
			}
		}
		return wrong
	}},
	{"D3", hard, "one finger on one string at under 150 ms is not offered", in{ms: []int32{60, 100, 149}}, "Siba, Harp Notation, Tremolo; Fujii et al. 2009", func(x trial) string {
		p, _ := solve.Plan(x.write("0 0 0"), x.rules)
		once := unless(p.Events[0].Stroke != p.Events[1].Stroke && p.Events[1].Stroke != p.Events[2].Stroke, read(p))
		for _, f := range []string{"1 1 1", "2 2 2", "3 3 3", "4 4 4"} {
			if wrong := less(p.Cost+300*plan.Charge, x.price("0 0 0", f)); wrong != "" {
				return f + ": " + wrong
			}
		}
		return once
	}},
	{"D5", order, "a repeat costs more low than high", in{}, "T. Goss; My Harp's Delight, Stop Harp Buzzing", func(x trial) string {
		x.root = 2
		low := x.least("0 0 0 0")
		x.root = 14
		middle := x.least("0 0 0 0")
		x.root = 25
		return first(less(middle, low), less(x.least("0 0 0 0"), middle))
	}},
	{"B17", order, "a scale lifted between its sets of four is dearer than connected", in{ms: []int32{150, 300, 600}}, lessons58, lifted},
	{"B17", legal, "a scale in sets of four by a player who lifts", in{}, lessons58, func(x trial) string {
		const scale, sets = "0 +1 +2 +3 +4 +5 +6 +7", "4 3 2 1 | 4 3 2 1"
		x.rules.Lifted = true
		p, _ := solve.Best(x.write(scale), x.rules)
		return first(unless(read(p) == sets, read(p)), unless(len(p.Placings) == 2 && p.Placings[1].Move == rule.Jump, "the hand does not lift"))
	}},
	{"F13", legal, "a cut with 1 2, and with 2 3", in{ms: []int32{300}}, "two schools of the cut, " + bunting, func(x trial) string {
		for _, way := range [][]int8{{0, 1}, {1, 2}} {
			s := x.write("0:cut 0")
			s.Gaps[0].Sites[0].Ornaments[0].House = [][]int8{way}
			s.Weigh()
			p, _ := solve.Plan(s, x.rules)
			if len(p.Dropped) > 0 || p.Gaps[0].Ways[1][0].Finger != way[0] || p.Events[0].Stroke[way[1]] == hand.None {
				return fmt.Sprint(way)
			}
		}
		return ""
	}},
	{"K14", legal, "barrluth beal an-airde as a grace with 3 2 4 2", in{hand: "left", ms: []int32{600}}, bunting, func(x trial) string {
		s := x.write("+1")
		at := func(string int8, ms int32) score.Stroke { return score.Stroke{String: x.root + string, At: ms} }
		s.Gaps[0].Sites = []score.Site{{Written: 1, Pass: 1, Ornaments: []score.Ornament{{Name: "grace", Likelihood: score.NowAndThen, On: true, Written: true,
			Delay: 3 * 65, Strokes: []score.Stroke{at(0, 0), at(1, 65), at(0, 130)}, House: [][]int8{{2, 1, 3, 1}}}}}}
		s.Weigh()
		p, _ := solve.Plan(s, x.rules)
		return unless(len(p.Dropped) == 0 && p.Gaps[0].Ways[1][0].Finger == 2 && p.Gaps[0].Ways[1][2].Finger == 3, fmt.Sprint(p.Dropped, p.Gaps[0].Ways))
	}},
	{"runs", hard, "a run of 6 to 16 notes has no placing for one note but before a slide", in{beat: 4, root: []int8{9, 16}}, "derived from B1; set a group of up to four in one direction at once, UBC Impart 2013", func(x trial) string {
		for n := 6; n <= 16; n++ {
			for _, way := range []int{1, -1} {
				passage := ""
				for i := range n {
					passage += fmt.Sprint(way*i, " ")
				}
				start := x
				if way < 0 {
					start.root += 15
				}
				p, _ := solve.Best(start.write(passage), x.rules)
				for k, pl := range p.Placings {
					if pl.First == pl.Last && (k+1 == len(p.Placings) || p.Placings[k+1].Move != rule.Slide) {
						return fmt.Sprintf("%d notes: %s", way*n, read(p))
					}
				}
			}
		}
		return ""
	}},
	{"drone", soft, "a low note under a moving thumb keeps its finger", in{ms: []int32{250, 400}}, "derived from what is said of repeated low notes, " + practice, func(x trial) string {
		const passage = "0 +4 0 +5 0 +6 0 +5 0 +4"
		s := x.write(passage)
		for i := 0; i < len(s.Events); i += 2 {
			s.Events[i].Notes[0].Pin = 4
		}
		return less(solve.Least(s, x.rules), x.least(passage)+near)
	}},
}

// begins is the price of the best fingering that begins with these.
func (x trial) begins(passage string, fingers ...int8) plan.Cost {
	s := x.write(passage)
	for i, f := range fingers {
		s.Events[i].Notes[0].Pin = f
	}
	p, _ := solve.Best(s, x.rules)
	if len(p.Dropped) > 0 {
		return plan.None
	}
	return p.Cost
}

// falling is K19 and K24: the same fingers with and without, each ornament in the
// hand, sharing free against the tune without any site; but a cut on the second
// note needs the string above the thumb's.
func falling(x trial) string {
	for tail, fingers := range map[string]string{"": "2 1 2 3", " -2": "2 1 2 3 4", " -3": "2 1 2 3 4"} {
		for _, passage := range []string{"0 +1 0 -1", "0:cut +1 0 -1", "0 +1 0:cut -1", "0 +1 0:upper-mordent -1"} {
			p, s := solve.Plan(x.write(passage+tail), x.rules)
			sharing := solve.Sharing(s, x.rules, &p)
			if read(p) != fingers || sharing != 0 || len(p.Dropped) > 0 {
				return fmt.Sprintf("%s: %s, sharing costs %d", passage+tail, read(p), sharing)
			}
			for j, g := range p.Gaps {
				for _, site := range g.Fits {
					if site[0].Ready != plan.InHand {
						return passage + tail + " is " + site[0].Ready.String()
					}
					for k, touch := range site[0].Touches {
						if s.Gaps[j].Sites[0].Ornaments[0].Strokes[k].String == x.root+1 && touch.Finger != 0 {
							return passage + tail + ": the added note is not the thumb's"
						}
					}
				}
			}
		}
		p, _ := solve.Plan(x.write("0 +1:cut 0 -1"+tail), x.rules)
		if p.Gaps[1].Fits[0][0].Ready == plan.InHand {
			return "a cut on the second note is in the hand"
		}
	}
	return ""
}

// lifted is B17. What the hand does is the cheapest it can do, so a lift that is
// not needed is worked out here: the placing; the thumb of the new set comes four
// strings higher, 10, and 2 for each of four times 14.5 mm; 20 h.
func lifted(x trial) string {
	from, to := hand.Empty(), hand.Empty()
	from[0], to[3] = x.root+3, x.root+4
	var connected rule.Bill
	move := x.rules.Across(&connected, &rule.Crossing{From: from, To: to, Since: x.ms, Written: true})
	c := rule.Usual()
	jump := c[rule.NewPlacing] + c[rule.Lift] + 4*c[rule.LiftWay] + (c[rule.PlacingTime]+c[rule.LiftTime])*rule.Hurry(x.ms)/1000
	return first(unless(move == rule.Under, "it "+move.String()+"s"), less(plan.Cost(connected.Sum), plan.Cost(jump)))
}

// elsewhere are check values that other tests hold, by the file and the test.
var elsewhere = []struct{ id, file, test string }{
	{"K29", "house_test.go", "TestOneWayEverywhere"},
	{"K20", "../harp/harp_test.go", "TestLeversOfKeys"},
	{"K21", "../harp/harp_test.go", "TestOctave"},
	{"J1", "../harp/harp_test.go", "TestKeysOfAPartlyLeveredHarp"},
	{"J3", "../harp/harp_test.go", "TestNotesOfAnEFlatHarp"},
	{"J5", "../harp/harp_test.go", "TestRespelling"},
	{"J8", "../harp/harp_test.go", "TestKeysOfAnEFlatHarp"},
	{"F1, F6, stops", "../stops_test.go", "TestStops"},
	{"F13, both schools", "../stops_test.go", "TestStops"},
	{"G1, G3, G5, stops", "../stops_test.go", "TestStops"},
}

// beyond are check values that no test of fingers can hold, and why.
var beyond = []struct{ id, reason string }{
	{"K28, in part", "when a finger reaches its string inside another's note is no part of a plan; its fingers are held"},
	{"B14, three fingers at once", "a finger that slides takes no other with it"},
	{"C11", "a chord shared by two hands: hands are planned one by one"},
	{"E5", "when a finger comes to its string in a trill is no part of a plan"},
	{"E7", "a note: left as right is a default"},
	{"F3", "three fingers gliding as one, over more strings than a hand holds"},
	{"F4", "is B10"},
	{"F15", "a note: how a tune is shared between hands"},
	{"G7", "a note: strokes with the nail's back"},
	{"G9", "a note: graces of the manuscript before the beat"},
	{"J9, J11", "a lever change inside a tune is a remark, not an event"},
}
