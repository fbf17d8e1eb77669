package engine_test

import (
	"runtime"
	"slices"
	"strconv"
	"strings"
	"testing"

	"readyhand/engine"
	"readyhand/engine/ornament"
	"readyhand/engine/rule"
	"readyhand/engine/score"
	"readyhand/engine/solve"
	"readyhand/engine/source"
)

// longTune is running eighths with a site in every second bar: at 32 bars the
// size the budgets speak of. It is made up to be measured, not played.
func longTune(bars int) string {
	return strings.Replace(head, "V:2 clef=bass\n", "", 1) + high(bars)
}

// bothHands is the same with broken shapes and chords for the left hand.
func bothHands(bars int) string {
	shapes := []string{"D,2A,2 D2A,2|", "G,2D2 G2D2|", "[D,A,D]4 [A,CE]4|", "[G,B,D]4 G,4|"}
	return head + high(bars) + "V:2\n" + lines(bars, shapes)
}

const head = "X:1\nT:Thirty-two bars\nM:4/4\nL:1/8\nQ:1/4=120\nV:1\nV:2 clef=bass\nK:D\nV:1\n"

func high(bars int) string {
	return lines(bars, []string{"{e}dedc A2FA|", "GABd egfe|", "d{f}efd cAFA|", "B2GB d2BG|"},
		[]string{"FAdf ~afdA|", "gece d4|", "!uppermordent!fgaf gece|", "dcBA GFEC|"})
}

// lines are bars of two parts in turn, four a line.
func lines(bars int, parts ...[]string) string {
	var b strings.Builder
	for i := range bars {
		b.WriteString(parts[i/4%len(parts)][i%4])
		if i%4 == 3 || i == bars-1 {
			b.WriteByte('\n')
		}
	}
	return b.String()
}

// threeEach gives every site of the right hand three ornaments that may sound,
// now and then each.
func threeEach(abc string) string {
	return strings.NewReplacer("{e}", "!cut!!tap!!uppermordent!", "{f}", "!cut!!tap!!lowermordent!",
		"~", "!cut!!roll!!tap!", "!uppermordent!", "!cut!!tap!!uppermordent!").Replace(abc)
}

// hands reads and writes out a tune that has nothing wrong, so that only
// fingering it is measured. It has so many sites, each with so many ornaments
// that may sound.
func hands(b *testing.B, abc string, count, sites, each int) []engine.Hand {
	b.Helper()
	a := engine.Read(abc).Answer()
	for _, r := range a.Remarks {
		if r.Severity == source.Error || len(a.Hands) != count {
			b.Fatal(r.Message)
		}
	}
	var got []int
	for _, h := range a.Hands {
		for _, g := range h.Score.Gaps {
			for _, s := range g.Sites {
				n := 0
				for _, o := range s.Ornaments {
					n += int(min(o.Likelihood, 1))
				}
				got = append(got, n)
			}
		}
	}
	if want := slices.Repeat([]int{each}, sites); !slices.Equal(got, want) {
		b.Fatalf("sites with %v ornaments that may sound, not %v", got, want)
	}
	return a.Hands
}

// plans solves for hands as if for the first time: with other charges each time,
// though they change no fingering, nothing that was worked out before holds.
func plans(b *testing.B, hands []engine.Hand) {
	b.ReportAllocs()
	for more := int64(1); b.Loop(); more++ {
		for _, h := range hands {
			h.Rules.Charges[rule.TooFast] += more
			solve.Plan(h.Score, h.Rules)
		}
	}
}

// plansAgain solves for hands as after a click on how likely an ornament is: each
// time another is often played, or no longer.
func plansAgain(b *testing.B, hands []engine.Hand) {
	b.ReportAllocs()
	var sites []*score.Ornament
	var gaps []int
	s := &hands[0].Score
	for j := range s.Gaps {
		for k := range s.Gaps[j].Sites {
			sites, gaps = append(sites, &s.Gaps[j].Sites[k].Ornaments[0]), append(gaps, j)
		}
	}
	for n := 0; b.Loop(); n++ {
		at := n % len(sites)
		sites[at].Likelihood = score.NowAndThen + score.Often - sites[at].Likelihood
		s.WeighGap(gaps[at])
		for _, h := range hands {
			solve.Plan(h.Score, h.Rules)
		}
	}
}

// BenchmarkJointPlan is the joint plan with prices and readiness of both hands,
// 32 bars and 16 sites.
func BenchmarkJointPlan(b *testing.B) {
	b.Run("both hands", func(b *testing.B) { plans(b, hands(b, bothHands(32), 2, 16, 1)) })
	b.Run("three ornaments", func(b *testing.B) { plans(b, hands(b, threeEach(bothHands(32)), 2, 16, 3)) })
	b.Run("after a click", func(b *testing.B) { plansAgain(b, hands(b, bothHands(32), 2, 16, 1)) })
	b.Run("one hand", func(b *testing.B) { plans(b, hands(b, longTune(32), 1, 16, 1)) })
}

// BenchmarkEveryOrnament is the same tune with every ornament of the catalogue
// offered on every note where it fits, each with its readiness: the whole answer,
// because writing them out is work too.
func BenchmarkEveryOrnament(b *testing.B) {
	offer := "%%ready offer"
	for _, r := range ornament.Rows() {
		offer += " " + r.Name
	}
	t := engine.Read(strings.Replace(bothHands(32), "K:D\n", "K:D\n"+offer+"\n", 1))
	offered := 0
	b.ReportAllocs()
	for b.Loop() {
		offered = 0
		for _, h := range t.Answer().Hands {
			for _, g := range h.Score.Gaps {
				for _, s := range g.Sites {
					offered += len(s.Ornaments)
				}
			}
		}
	}
	b.ReportMetric(float64(offered), "ornaments")
}

// BenchmarkFinder is what may be played on every note of the same tune, both hands,
// of the ornaments whose names the trade shares: once the tune is planned.
func BenchmarkFinder(b *testing.B) {
	a := engine.Read(bothHands(32)).Answer()
	found := 0
	b.ReportAllocs()
	for b.Loop() {
		found = len(a.Finder(0)) + len(a.Finder(1))
	}
	b.ReportMetric(float64(found), "ornaments")
}

// BenchmarkAsked is what may be played on one note, as its panel tells it.
func BenchmarkAsked(b *testing.B) {
	p := engine.Open([]string{bothHands(32)}, "", "")
	p.Markup(0)
	for b.Loop() {
		p.Do("why@b1-50")
	}
}

// BenchmarkChart is a chart of every ornament worked out again for another setting, as
// a reader's click asks for it.
func BenchmarkChart(b *testing.B) {
	p := engine.Open([]string{engine.ChartLine + "\n"}, "", "")
	p.Markup(0)
	for b.Loop() {
		p.Do("fingers 123")
		p.Do("spacing 13")
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/2, "ns/command")
}

// BenchmarkGrowth is the plan of one hand for 10 and 100 times the notes:
// nanoseconds a note should stay as they are.
func BenchmarkGrowth(b *testing.B) {
	for _, notes := range []int{100, 1000, 10000} {
		b.Run(strconv.Itoa(notes)+" notes", func(b *testing.B) {
			h := engine.Read(longTune(notes * 13 / 100)).Answer().Hands[0]
			for b.Loop() {
				solve.Plan(h.Score, h.Rules)
			}
			heads := 0
			for _, e := range h.Score.Events {
				heads += len(e.Notes)
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(heads), "ns/note")
		})
	}
}

// BenchmarkAnswer is the whole way from text to plan.
func BenchmarkAnswer(b *testing.B) {
	text := bothHands(32)
	for b.Loop() {
		engine.Read(text).Answer()
	}
}

// BenchmarkSwitch is one command on a page: an ornament off, and on again.
func BenchmarkSwitch(b *testing.B) {
	p := engine.Open([]string{bothHands(32)}, "", "")
	p.Markup(0)
	b.ReportAllocs()
	for b.Loop() {
		off, _ := p.Do("cut@b1-1 off")
		off.Do("cut@b1-1 on")
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/2, "ns/command")
}

// BenchmarkLive is what stays in memory while a page is open: the long tune,
// drawn, and the page before its last command. It is the whole heap after a
// collection, the test's own part in it included.
func BenchmarkLive(b *testing.B) {
	var m runtime.MemStats
	for b.Loop() {
		p := engine.Open([]string{bothHands(32)}, "", "")
		p.Markup(0)
		off, _ := p.Do("cut@b1-1 off")
		runtime.GC()
		runtime.GC() // what the first one only found to be over
		runtime.ReadMemStats(&m)
		runtime.KeepAlive(p)
		runtime.KeepAlive(off)
	}
	b.ReportMetric(float64(m.HeapAlloc)/1e6, "live-MB")
}
