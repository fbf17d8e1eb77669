package solve_test

import (
	"strconv"

	"github.com/stretchr/testify/require"

	"readyhand/engine"
	"readyhand/engine/score"
)

// abc makes a score of a passage in ABC, as a lesson has it: with its metre, a unit
// of an eighth and trial.ms to the unit.
func (x trial) abc(passage string) score.Score {
	a := engine.Read("X:1\nT:Passage\nM:" + x.metre + "\nL:1/8\nQ:1/8=" + strconv.Itoa(int(60000/x.ms)) + "\nK:C\n" + passage + "|]\n").Answer()
	require.Len(x.t, a.Hands, 1, passage)
	require.Empty(x.t, a.Hands[0].Plan.Dropped, passage)
	return a.Hands[0].Score
}

// inABC are rows once more as a lesson has them.
var inABC = []row{
	{"K6 in ABC", hard, "CDEF GABc", "4 3 2 1 | 4 3 2 1", in{metre: "4/4"}, derivedFrom + "K6"},
	{"K6 in ABC", hard, "cBAG FEDC", "1 2 3 4 | 1 2 3 4", in{metre: "4/4"}, derivedFrom + "K6"},
	{"K6 in ABC in two", hard, "GABc|defg", "4 3 2 1 | 4 3 2 1", in{metre: "2/4"}, derivedFrom + "K6"},
	{"K6 in ABC, short notes", hard, "C/D/E/F/ G/A/B/c/", "4 3 2 1 | 4 3 2 1", in{metre: "4/4", ms: []int32{300, 600}}, derivedFrom + "K6"},
	{"K6 in ABC and a rest", hard, "CDEF GABc|z4 cBAG", "4 3 2 1 | 4 3 2 1 | 1 2 3 4", in{metre: "4/4"}, derivedFrom + "K6"},
	{"B1 in ABC", soft, "CDEF GABc|defg abc'2", "4 3 2 1 | 4 3 2 1 | 4 3 2 1 | 3 2 1", in{metre: "4/4"}, derivedFrom + "B1"},
	{"six up in ABC", soft, "CDE FGA", "3 2 1 | 3 2 1", in{metre: "6/8"}, derivedFrom + "K3"},
	{"six down in ABC", soft, "agf edc", "1 2 3 | 1 2 3", in{metre: "6/8"}, derivedFrom + "K4"},
	{"nine up in ABC", soft, "GAB cde fga", "3 2 1 | 3 2 1 | 3 2 1", in{metre: "9/8"}, derivedFrom + "K3"},
	{"K3 in ABC", hard, "CDE FGA", "3 2 1 | 3 2 1", in{metre: "6/8", use: "123"}, derivedFrom + "K3"},
	{"K4 in ABC", hard, "agf edc", "1 2 3 | 1 2 3", in{metre: "6/8", use: "123"}, derivedFrom + "K4"},
	{"B4 in ABC", hard, "CDEFGA", "2 1 | 2 1 | 2 1", in{metre: "3/4", use: "12"}, derivedFrom + "B4"},
	{"B8 in ABC", hard, "CDE DEF|EFG FGA", "3 2 1 | 3 2 1 | 3 2 1 | 3 2 1", in{metre: "6/8", use: "123"}, derivedFrom + "B8"},
	{"B8 down in ABC", hard, "agf gfe|fed edc", "1 2 3 | 1 2 3 | 1 2 3 | 1 2 3", in{metre: "6/8", use: "123", ms: []int32{200, 300, 600}}, derivedFrom + "B8"},
	{"B8 in fours in ABC", soft, "CDEF DEFG|EFGA FGAB", "4 3 2 1 | 4 3 2 1 | 4 3 2 1 | 4 3 2 1", in{metre: "4/4"}, derivedFrom + "B8"},
	{"B11 in ABC", hard, "CDED C2", "3 2 1 2 3", in{metre: "3/4"}, derivedFrom + "B11"},
	{"C13 in ABC", soft, "CEGc egc'e'", "4 3 2 1 | 4 3 2 1", in{metre: "4/4"}, derivedFrom + "C13"},
	{"C13 inversions in ABC", soft, "CEGc EGce|Gceg z4", "4 3 2 1 | 4 3 2 1 | 4 3 2 1", in{metre: "4/4", ms: []int32{150, 200, 300}}, derivedFrom + "C13"},
	{"C15 in ABC", soft, "CD E2 FG A2", "3 2 1 | 3 2 1", in{metre: "4/4"}, derivedFrom + "C15"},
	{"C15 in ABC", soft, "ag f2 ed c2", "1 2 3 | 1 2 3", in{metre: "4/4"}, derivedFrom + "C15"},
	{"C15 in ABC, from the same strings", soft, "CD E2 DE F2|EF G2 z4", "3 2 1 | 3 2 1 | 3 2 1", in{metre: "4/4"}, derivedFrom + "C15"},
	{"C15 in ABC with 1 to 3", hard, "CD E2 FG A2", "3 2 1 | 3 2 1", in{metre: "4/4", use: "123"}, derivedFrom + "C15"},
	{"D1 in ABC", soft, "G2 G2 G2 G2", "2 2 2 2", in{metre: "4/4", ms: []int32{200, 300, 450}}, derivedFrom + "D1"},
	{"K17 in ABC", hard, "CDCD", "2 1 2 1", in{metre: "2/4"}, derivedFrom + "K17"},
	{"K24 in ABC", hard, "dedc A2", "2 1 2 3 4", in{metre: "3/4"}, derivedFrom + "K24"},
	{"K10 broken in ABC", hard, "CGcG CGcG", "4 2 1 2 4 2 1 2", in{metre: "4/4"}, derivedFrom + "K10"},
	{"K23 broken in ABC", soft, "CGcG DAdA|EBeB FcfA", "4 2 1 2 | 4 2 1 2 | 4 2 1 2 | 4 2 1 3", in{metre: "4/4"}, derivedFrom + "K23"},
	{"K23 in ABC", hard, "[CGc]4 [DAd]4|[EBe]4 [Fcf]4", "{4 2 1} | {4 2 1} | {4 2 1} | {4 2 1}", in{metre: "4/4", ms: []int32{150, 300}}, derivedFrom + "K23"},
}
