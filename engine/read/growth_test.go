package read

import (
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"readyhand/engine/source"
)

// patterns are repeated to make a long text: whatever is written again and again,
// reading must take steps in proportion to it.
var patterns = []string{
	"C", "CDEF|", "^C_D=E", "C,,,,", "c''''", "C2/3", "////", "123456789", "[CEG]", "[", "[]", "[C", "]", "(", ")", "(C", "((C))", "(3CDE", "(3", "{", "{g}C", "{g", "}",
	"!roll!C", "!", "!a", "!a ", "+", "+a+", "\"", "\"Am\"C", "\"^x", "-", "C-", ">", "C>", "|", "|:C:|", ":", ": ", "::", "|1C:|2C", "[1C", "&", "C&", "C&&C|", "z", "Z", "y", "$", "\\", "%", "`",
	"\n", "\r\n", "C\n", "\n\n", "w:a-b_*|\n", "C|\nw:a\n", "s:!roll!*\n", "+:x\n", "K:D\n", "[K:D]", "[K:", "M:3/4\n", "[M:3/4]C", "L:1/4\n", "P:A\n", "[P:A]", "[P:A]C|", "V:1\n", "[V:1]C", "[V:2]C[V:1]C",
	"T:a\n", "C:a\n", "Q:1/4=90\n", "[Q:1/4=90]C[Q:9]C", "U:T=!roll!\n", "TC", "~C", "m:a\n", "I:x\n", "%%ready set@1\n", "%%begintext\n", "%%x\n", "X:1\n", "#", ";", "é", "\xe9", "𝄞", "x:y ", "!roll!!roll!", "\\'e", "&eacute;",
	"K:exp ^f_b=c\n", "abcdefgh zzzz |]\n", "[V:1 clef=bass]C|", "(9:2:9C", ".", ".-", "T:", "P:(A)2\n", "[CC", "{C}{C}", "<<<", "C<<D",
}

// Ten times the text takes at most twelve times the steps, and a little to begin
// with; nothing takes more than so many steps a byte (guess).
func TestGrowth(t *testing.T) {
	for _, pattern := range patterns {
		for _, head := range []string{"X:1\nK:C\n", "X:1\nP:A\nV:1\nV:2\nK:C\nC"} {
			steps := func(bytes int) int {
				_, _, steps := read(source.NewText(head + strings.Repeat(pattern, bytes/len(pattern))))
				return steps
			}
			few, many := steps(5_000), steps(50_000)
			assert.LessOrEqual(t, many, 12*few+5000, "%q", pattern)
			assert.LessOrEqual(t, many, 50*50_000, "%q", pattern)
		}
	}
}

// The largest texts are read in memory and time that nobody minds: 1 MB each of
// every pattern, brackets a thousand deep among them. All the memory that is
// taken is counted, given back or not; the time is only told, for a slow machine.
func TestLargest(t *testing.T) {
	if testing.Short() {
		t.Skip("reads 100 MB")
	}
	var slowest time.Duration
	var largest uint64
	var slow, large string
	for _, pattern := range patterns {
		text := source.NewText("X:1\nK:C\n" + strings.Repeat(pattern, 1_000_000/len(pattern)))
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		start := time.Now()
		got, remarks := Tune(text)
		took := time.Since(start)
		runtime.ReadMemStats(&after)
		if took > slowest {
			slowest, slow = took, pattern
		}
		if used := after.TotalAlloc - before.TotalAlloc; used > largest {
			largest, large = used, pattern
		}
		assert.LessOrEqual(t, len(remarks), mostRemarks+1)
		assert.NotEmpty(t, got.Voices)
		_ = Write(got)
	}
	t.Logf("slowest %v (%q); most memory in all %d MB (%q)", slowest, slow, largest>>20, large)
	assert.Less(t, largest, uint64(200<<20), "%q: all it ever takes, so at no time more", large)
}

// What is opened a thousand times is read without running out of anything.
func TestNesting(t *testing.T) {
	for _, row := range []struct{ open, middle, close string }{
		{"(", "C", ")"}, {"[", "C", "]"}, {"{", "g", "}C"}, {"\"", "Am", "\"C"}, {"(3", "CDE", ""}, {"|:", "C", ":|"}, {"!", "roll", "!C"},
	} {
		abc := "X:1\nK:C\n" + strings.Repeat(row.open, 1000) + row.middle + strings.Repeat(row.close, 1000) + "|\n"
		wholesome(t, abc)
		thereAndBack(t, abc)
	}
	order := strings.Repeat("(", 1000) + "A" + strings.Repeat(")", 1000)
	got, remarks := Tune(source.NewText("X:1\nP:" + order + "\nK:C\nP:A\nC|\n"))
	assert.Empty(t, remarks)
	assert.Len(t, got.Voices[0].Played, 1)
}
