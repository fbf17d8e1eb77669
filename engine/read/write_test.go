package read

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine/source"
	"readyhand/engine/tune"
)

// placeless is a tune without the places where it was written.
func placeless(t tune.Tune) tune.Tune {
	t.Header = source.Span{}
	t.Settings = append([]tune.Setting(nil), t.Settings...)
	for i := range t.Settings {
		t.Settings[i].Source = source.Span{}
	}
	t.Voices = append([]tune.Voice(nil), t.Voices...)
	for i := range t.Voices {
		v := &t.Voices[i]
		v.Events = append([]tune.Event(nil), v.Events...)
		v.Marks = append([]tune.Mark(nil), v.Marks...)
		for k := range v.Marks {
			v.Marks[k].Source = source.Span{}
		}
		for k := range v.Events {
			e := &v.Events[k]
			e.Source = source.Span{}
			e.Notes = append([]tune.Note(nil), e.Notes...)
			for n := range e.Notes {
				e.Notes[n].Source, e.Notes[n].Pinned = source.Span{}, source.Span{}
			}
			e.Graces = append([]tune.Grace(nil), e.Graces...)
			for n := range e.Graces {
				e.Graces[n].Source = source.Span{}
			}
			e.Decorations = append([]tune.Decoration(nil), e.Decorations...)
			for n := range e.Decorations {
				e.Decorations[n].Source = source.Span{}
			}
		}
	}
	return t
}

// thereAndBack asserts that what is written of a tune reads as the same tune, and
// is written the same again.
func thereAndBack(t testing.TB, abc string) {
	t.Helper()
	first, _ := Tune(source.NewText(abc))
	text := Write(first)
	second, remarks := Tune(source.NewText(text))
	if !assert.ObjectsAreEqual(placeless(first), placeless(second)) {
		one, other := fmt.Sprintf("%+v", placeless(first)), fmt.Sprintf("%+v", placeless(second))
		at := 0
		for at < min(len(one), len(other)) && one[at] == other[at] {
			at++
		}
		at = max(0, at-150)
		require.Fail(t, "another tune", "%q\nwritten %q\nwas  %.300s\nread %.300s\nremarks %v", abc, text, one[at:], other[at:], remarks)
	}
	require.Equal(t, text, Write(second))
}

// everything is a tune with everything that a tune can have.
const everything = "X:7\nT:The Lantern Stair\nT:50\\% \\& more\nC:our own\nR:jig\nP:A2.(BA)2\nM:6/8\nQ:\"Slow\" 3/8=60\nU:T=!turn!\n" +
	"V:RH name=\"Right hand\" clef=treble\nV:LH clef=bass octave=-1\n%%ready tuning C\nK:D ^g\nW:words below\n" +
	"[V:RH][P:A]!segno!(F | ~F>{g^a}A!2!B) \"Am\"\"^softly\"[DF-A]2[F!1!d-]/ d/ | (3abc z2 Hg3- |1 g6 :|2 !breath!f6 ||\n" +
	"w: one two-three *\n" +
	"[V:LH] z | Z | [A,D]6 |1 D6 & F,3 A,3 :|2 [K:C]F6 ||\n" +
	"[V:RH][P:B][M:3/4][K:Gm]Bc =B^f/f/ f2 && \\\n(2DE x2 G2 | &A6|\nw: la\nw: le\n" +
	"%%ready stay@4;set@9\n"

// found are texts that fuzzing found once to read as another tune, or as none that
// is wholesome.
var found = []string{"A:\\A\xc3", "0\nP::\xa00", "0\nP: :\xa0:0", "V:0\t\"", "A&0&0&A&00&0&0&0&A&", "0\nP:0 ]", "&0&0&0&0&0&0&0&0&A", "A|0&[P:0]&&A", "&000000A|&0&\nP:0", "A|A&&A&|", "K:C\nV:1\nC|w:\n[V:1]C2&&(2DE x2&|", "K:=A BAss", "0A&A&|&<A", "X100000", "\x9300X\x83[1&000000A|0", "0Y0Y0[A02A&0&00A", " A: :", "A:\xa0", "K:BAss", "A00\nV:|\n&A", "&00A000000\nV:\xff\"\"\"\"\n&0000",
	"0\nV:0\nV:1 BAss\n&0A0000",
	"z|:&&A[V:1]z", "z|:&A||:", "&&>&&[1:|&A", // & where the bar has nothing yet
	"&A[M:none]:|&[M:none]", "&A[K:D]|&[K:D]", "A&B[V:]&>&A", // & with no note after it
	"A[P:B]|&B[P:B]", "z[M:3/4]:|&A:|[M:3/4]", "A\nP:A\n|:&Z\nP:A\n", // a mark that takes the place of one before the bar line
	"z[M:3/4]&Z|[M:3/4]", "A&[M:2/4]B|C&[M:3/4]|&D", // or of one that a layer begins with
	"M:2/4\nA>|Z|B", "M:2/4\nA>Z2", "A4B4>|", // a dotted rhythm without its second note
	"^F[1=F",                      // an ending that begins inside a bar
	"A|B&&C[V:]|D", "A|B&&&c:||:", // the bar line in a layer over two bars
	"X:1\nP:A\nK:\nV:1\nz\nV:2\nP:A\n", "&A[V:2][1,3", // what stands in a voice without notes
	"X:1\nP:AB2\nK:Em\nP:C\nB\nP:B\n&BB",             // a part that only a layer reaches
	"X3\nI:linebreak !\n&z\ns:!T\nA",                 // a ! under the music
	"V:3 octave=1\nC,,,,,,", "[K:C transpose=2][K:]", // what is moved
	"&000000[V:0]&0A", "&A|&A0", "X,1\nT\\:Ó\n:jig\nK:D\nF & =c G|\n", "X:1\nT:Ó\nP:A2B\nK:C\nP::\nC|[1DA|[2E|]\nP:B\nF|]\n"}

// Every tune of the tests, and one with everything.
func TestWrite(t *testing.T) {
	thereAndBack(t, everything)
	// Found by fuzzing: lines that are none of the tune's define no sign of it.
	thereAndBack(t, "!swirl!A\n%%readyornAment swirl")
	thereAndBack(t, "!swirl!A\n\n%%ready ornament swirl +1 0")
	thereAndBack(t, "%%ready ornament swirl +1 0\n!swirl!A")
	for _, abc := range found {
		wholesome(t, abc)
		thereAndBack(t, abc)
	}
	for _, abc := range append(valid(), complained(t)...) {
		thereAndBack(t, abc)
	}
	files, err := filepath.Glob("../../content/*.md")
	require.NoError(t, err)
	tunes := 0
	for _, file := range files {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		for i, piece := range strings.Split(string(text), "```") {
			if abc, ok := strings.CutPrefix(piece, "abc\n"); ok && i%2 == 1 {
				thereAndBack(t, abc)
				tunes++
			}
		}
	}
	require.Positive(t, tunes, "the lessons of the course have tunes")
}

// complained are the pieces of the complaint files.
func complained(t testing.TB) (pieces []string) {
	files, err := filepath.Glob(filepath.Join(complaints, "*.abc"))
	require.NoError(t, err)
	for _, file := range files {
		bytes, err := os.ReadFile(file)
		require.NoError(t, err)
		for piece := range strings.SplitSeq(string(bytes), "---\n") {
			pieces = append(pieces, withoutComplaints(piece))
		}
	}
	return pieces
}

// Every altered note has its own accidental, whatever the key or the bar say, so
// that who lets one hold in one octave only reads the same notes.
func TestWrittenAccidentals(t *testing.T) {
	for _, row := range []struct{ abc, want, why string }{
		{"K:D\nF f =F f C|F", "^F ^f =F =f ^C | ^F", "the key and the bar"},
		{"K:C\n^F F f F,|F", "^F ^F ^f ^F, | F", "to the end of the bar, in every octave (4.2)"},
		{"K:F\nB,{B}A [Bd_e]|", "_B,{_B}A [_Bd_e] |", "graces and chords"},
		{"K:C\n^c-|c c|", "^c- | ^c =c |", "a tied note"},
	} {
		got, _ := Tune(source.NewText("X:1\nL:1/8\n" + row.abc + "\n"))
		_, music, _ := strings.Cut(Write(got), "\nK:")
		_, music, _ = strings.Cut(music, "\n")
		assert.Equal(t, row.want, strings.TrimSpace(music), row.why)
	}
}

// The same of damaged tunes.
func TestWriteDamaged(t *testing.T) {
	for _, abc := range damaged(20000, 7) {
		thereAndBack(t, abc)
	}
}

func FuzzWrite(f *testing.F) {
	for _, abc := range append(valid(), complained(f)...) {
		f.Add(abc)
	}
	f.Add(everything)
	f.Add("X:1\nQ:90\nK:G\nV:1\nGA|[Q:\"Brisk\" 1/4=90]Bc&de|Q:1/8=50 \"slow\"\nV:2\nG,2|[Q:\"softly\"]D,2:|\n")
	f.Fuzz(func(t *testing.T, abc string) { thereAndBack(t, abc) })
}
