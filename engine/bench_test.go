package engine_test

import (
	"strings"
	"testing"

	"readyhand/engine"
	"readyhand/engine/score"
	"readyhand/engine/solve"
)

// longTune is 32 bars of running eighths with 16 sites, one in every second
// bar: the size the budgets speak of. It is made up to be measured, not played.
func longTune(bars int) string {
	four := []string{"{e}dedc A2FA|", "GABd egfe|", "d{f}efd cAFA|", "B2GB d2BG|"}
	two := []string{"FAdf ~afdA|", "gece d4|", "!uppermordent!fgaf gece|", "dcBA GFEC|"}
	var b strings.Builder
	b.WriteString("X:1\nT:Thirty-two bars\nM:4/4\nL:1/8\nQ:1/4=120\nK:D\n")
	for i := range bars {
		part := four
		if i/4%2 == 1 {
			part = two
		}
		b.WriteString(part[i%4])
		if i%4 == 3 {
			b.WriteString("\n")
		}
	}
	return b.String()
}

// BenchmarkJointPlan is the joint plan with prices and readiness of one hand,
// 32 bars and 16 sites.
func BenchmarkJointPlan(b *testing.B) {
	h := engine.Read(longTune(32)).Answer().Hands[0]
	sites := 0
	for _, g := range h.Score.Gaps {
		sites += len(g.Sites)
	}
	if sites != 16 {
		b.Fatalf("%d sites, not 16", sites)
	}
	b.ReportAllocs()
	for b.Loop() {
		solve.Plan(h.Score, h.Rules)
	}
}

// BenchmarkGrowth is the same for 10 and 100 times the notes: nanoseconds a note
// should stay as they are.
func BenchmarkGrowth(b *testing.B) {
	for name, bars := range map[string]int{"100 notes": 13, "1000 notes": 130, "10000 notes": 1300} {
		b.Run(name, func(b *testing.B) {
			h := engine.Read(longTune(bars)).Answer().Hands[0]
			for b.Loop() {
				solve.Plan(h.Score, h.Rules)
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(notes(h.Score)), "ns/note")
		})
	}
}

func notes(s score.Score) int {
	n := 0
	for _, e := range s.Events {
		n += len(e.Notes)
	}
	return n
}

// BenchmarkAnswer is the whole way from text to plan.
func BenchmarkAnswer(b *testing.B) {
	text := longTune(32)
	for b.Loop() {
		engine.Read(text).Answer()
	}
}

// BenchmarkSwitch is one command on a page: an ornament off, and on again.
func BenchmarkSwitch(b *testing.B) {
	p := engine.Open([]string{longTune(32)}, "", "")
	p.Markup(0)
	b.ReportAllocs()
	for b.Loop() {
		off, _ := p.Do("cut@b1-1 off")
		off.Do("cut@b1-1 on")
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/2, "ns/command")
}
