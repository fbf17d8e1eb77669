package draw_test

import (
	"encoding/xml"
	"io"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine/draw"
)

// node is an element of the markup, read back.
type node struct {
	XMLName  xml.Name
	Attrs    []xml.Attr `xml:",any,attr"`
	Text     string     `xml:",chardata"`
	Children []node     `xml:",any"`
}

func (n *node) attr(name string) string {
	for _, a := range n.Attrs {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

func (n *node) walk(visit func(*node)) {
	visit(n)
	for i := range n.Children {
		n.Children[i].walk(visit)
	}
}

// all gives the text of an element and of those in it.
func (n *node) all() string {
	s := n.Text
	for i := range n.Children {
		s += n.Children[i].all()
	}
	return s
}

// parse reads markup as XML, which HTML of our kind is but for its br.
func parse(t *testing.T, html string) *node {
	t.Helper()
	var root node
	d := xml.NewDecoder(strings.NewReader("<div>" + strings.ReplaceAll(html, "<br>", "<br></br>") + "</div>"))
	require.NoError(t, d.Decode(&root))
	_, err := d.Token()
	require.ErrorIs(t, err, io.EOF)
	return &root
}

func TestIDsAreUnique(t *testing.T) {
	each(t, func(t *testing.T, html string) {
		seen := map[string]bool{}
		parse(t, html).walk(func(n *node) {
			if id := n.attr("id"); id != "" {
				assert.False(t, seen[id], "%s stands twice", id)
				seen[id] = true
				assert.True(t, strings.HasPrefix(id, "b1-"), id)
			}
		})
	})
}

var number = regexp.MustCompile(`-?[0-9.]+`)

func TestWholeNumbersOnly(t *testing.T) {
	each(t, func(t *testing.T, html string) {
		pictures(t, html, func(svg *node) {
			svg.walk(func(n *node) {
				for _, a := range n.Attrs {
					switch a.Name.Local {
					case "x", "y", "x1", "x2", "y1", "y2", "cx", "cy", "r", "rx", "dy", "width", "height", "d", "viewBox", "font-size", "stroke-width":
						assert.NotContains(t, a.Value, ".", "%s %s", n.XMLName.Local, a.Name.Local)
					case "style":
						t.Error("a style attribute, which the page's policy forbids")
					}
				}
			})
		})
	})
}

// pictures visits every picture of a block that shows a line of strings.
func pictures(t *testing.T, html string, visit func(svg *node)) {
	t.Helper()
	found := 0
	parse(t, html).walk(func(n *node) {
		if n.XMLName.Local == "svg" && n.attr("aria-hidden") == "" {
			found++
			visit(n)
		}
	})
	if strings.Contains(html, `class="bead" id=`) {
		assert.Positive(t, found)
	}
}

// box is where something is drawn.
type box struct {
	left, top, right, bottom int
	what                     string
}

func (b box) over(c box) bool {
	return b.left < c.right && c.left < b.right && b.top < c.bottom && c.top < b.bottom
}

// textBox estimates where a text stands: six tenths of its size a letter wide
// (digits and lower case of common sans-serif faces are narrower), from seven
// tenths of it above its base line to two tenths below.
func textBox(t *testing.T, n *node) box {
	size := atoi(t, n.attr("font-size"))
	wide := (utf8.RuneCountInString(n.all())*size*6 + 9) / 10
	x, y := atoi(t, n.attr("x")), atoi(t, n.attr("y"))
	switch n.attr("text-anchor") {
	case "middle":
		x -= wide / 2
	case "end":
		x -= wide
	}
	return box{x, y - size*7/10, x + wide, y + size*2/10, n.all()}
}

func atoi(t *testing.T, s string) int {
	t.Helper()
	n, err := strconv.Atoi(s)
	require.NoError(t, err)
	return n
}

// TestNoTwoLabelsOverlap also holds that no two beads do.
func TestNoTwoLabelsOverlap(t *testing.T) {
	each(t, func(t *testing.T, html string) {
		pictures(t, html, func(svg *node) {
			var texts, beads []box
			svg.walk(func(n *node) {
				switch {
				case n.XMLName.Local == "text":
					texts = append(texts, textBox(t, n))
				case n.XMLName.Local == "circle" && n.attr("class") == "":
					x, y, r := atoi(t, n.attr("cx")), atoi(t, n.attr("cy")), atoi(t, n.attr("r"))
					beads = append(beads, box{x - r, y - r, x + r, y + r, "bead"})
				}
			})
			for _, list := range [][]box{texts, beads} {
				for i := range list {
					for j := range i {
						assert.False(t, list[i].over(list[j]), "%+v lies over %+v", list[i], list[j])
					}
				}
			}
		})
	})
}

// TestNothingOutside follows every shape from point to point.
func TestNothingOutside(t *testing.T) {
	each(t, func(t *testing.T, html string) {
		pictures(t, html, func(svg *node) {
			view := strings.Fields(svg.attr("viewBox"))
			width, height := atoi(t, view[2]), atoi(t, view[3])
			inside := func(x, y int, what string) {
				assert.True(t, x >= 0 && x <= width && y >= 0 && y <= height, "%s at %d %d, outside %d %d", what, x, y, width, height)
			}
			svg.walk(func(n *node) {
				switch n.XMLName.Local {
				case "text":
					b := textBox(t, n)
					inside(b.left, b.top, b.what)
					inside(b.right, b.bottom, b.what)
				case "circle":
					x, y, r := atoi(t, n.attr("cx")), atoi(t, n.attr("cy")), atoi(t, n.attr("r"))
					inside(x-r, y-r, "circle")
					inside(x+r, y+r, "circle")
				case "line":
					inside(atoi(t, n.attr("x1")), atoi(t, n.attr("y1")), "line")
					inside(atoi(t, n.attr("x2")), atoi(t, n.attr("y2")), "line "+n.attr("class"))
				case "rect":
					x, y := atoi(t, n.attr("x")), atoi(t, n.attr("y"))
					inside(x, y, "rect")
					inside(x+atoi(t, n.attr("width")), y+atoi(t, n.attr("height")), "rect")
				case "path":
					for _, p := range points(t, n.attr("d")) {
						inside(p[0], p[1], "path "+n.attr("class"))
					}
				}
			})
		})
	})
}

var command = regexp.MustCompile(`[MmLlHhVvAaCcZz][^MmLlHhVvAaCcZz]*`)

// points gives the end points of a path's pieces.
func points(t *testing.T, d string) (all [][2]int) {
	x, y := 0, 0
	for _, c := range command.FindAllString(d, -1) {
		var n []int
		for _, s := range number.FindAllString(c[1:], -1) {
			n = append(n, atoi(t, s))
		}
		step := map[byte]int{'M': 2, 'm': 2, 'L': 2, 'l': 2, 'H': 1, 'h': 1, 'V': 1, 'v': 1, 'a': 7, 'c': 6, 'z': 0}
		size, known := step[c[0]]
		require.True(t, known, "%q in %q", c, d)
		for i := 0; size > 0 && i+size <= len(n); i += size {
			last := n[i+size-2*min(1, size-1) : i+size]
			switch c[0] {
			case 'M', 'L':
				x, y = n[i], n[i+1]
			case 'h':
				x += n[i]
			case 'v':
				y += n[i]
			default:
				x, y = x+last[0], y+last[1]
			}
			all = append(all, [2]int{x, y})
		}
	}
	return all
}

func TestControls(t *testing.T) {
	each(t, func(t *testing.T, html string) {
		root := parse(t, html)
		ids := map[string]bool{}
		root.walk(func(n *node) { ids[n.attr("id")] = true })
		root.walk(func(n *node) {
			switch {
			case n.XMLName.Local == "button":
				assert.Equal(t, "button", n.attr("type"))
				assert.True(t, n.attr("data-do") != "" || slices.Contains([]string{"go", "unfold", "hush"}, n.attr("class")), "only the page's clock, and what it says being unfolded or put away, ask nothing of the engine")
				assert.NotEmpty(t, strings.TrimSpace(n.all()), "a button without words")
			case n.attr("role") == "button":
				assert.Contains(t, []string{"0", "-1"}, n.attr("tabindex"))
				assert.NotEmpty(t, n.attr("aria-label"))
				assert.NotEmpty(t, n.attr("data-do"))
				assert.NotEmpty(t, n.attr("id"), "focus has to find it again")
			case n.XMLName.Local == "select":
				assert.NotEmpty(t, n.attr("data-do"))
				chosen := 0
				for i := range n.Children {
					for _, a := range n.Children[i].Attrs {
						if a.Name.Local == "selected" {
							chosen++
						}
					}
				}
				assert.Equal(t, 1, chosen, "%s shows what holds", n.attr("id"))
			case n.XMLName.Local == "label":
				assert.True(t, ids[n.attr("for")], n.attr("for"))
			}
		})
	})
}

// TestOneStopALine: the tab key reaches the first control of a line, and the
// others stand in the order of time, for the arrow keys.
func TestOneStopALine(t *testing.T) {
	each(t, func(t *testing.T, html string) {
		pictures(t, html, func(svg *node) {
			var stops []string
			last := -99
			svg.walk(func(n *node) {
				if n.attr("role") != "button" {
					return
				}
				stops = append(stops, n.attr("tabindex"))
				for i := range n.Children {
					if r := &n.Children[i]; r.attr("class") == "gem" || r.attr("class") == "" && r.XMLName.Local == "circle" {
						x := 0
						if r.attr("class") == "gem" {
							x = points(t, r.attr("d"))[0][0]
						} else {
							x = atoi(t, r.attr("cx"))
						}
						assert.GreaterOrEqual(t, x, last-7, "%s", n.attr("aria-label")) // a square begins 7 to its left
						last = x
					}
				}
			})
			for i, s := range stops {
				assert.Equal(t, map[bool]string{true: "0", false: "-1"}[i == 0], s, "control %d of %d", i+1, len(stops))
			}
		})
	})
}

// TestTouch: the fields that answer for controls do not overlap, cover the
// middle of what they stand for, and are 30 units wide or high where one other
// is near (24 pixels on a phone of 320; WCAG 2.2, 2.5.8).
func TestTouch(t *testing.T) {
	each(t, func(t *testing.T, html string) {
		pictures(t, html, func(svg *node) {
			var fields []box
			svg.walk(func(n *node) {
				if n.attr("role") != "button" {
					return
				}
				require.Equal(t, "touch", n.Children[0].attr("class"), "%s", n.attr("id"))
				r := &n.Children[0]
				x, y := atoi(t, r.attr("x")), atoi(t, r.attr("y"))
				fields = append(fields, box{x, y, x + atoi(t, r.attr("width")), y + atoi(t, r.attr("height")), n.attr("id")})
			})
			for i := range fields {
				f := fields[i]
				assert.True(t, f.right-f.left >= 11 && f.bottom-f.top >= 20, "%+v", f)
				for j := range i {
					assert.False(t, f.over(fields[j]), "%+v lies over %+v", f, fields[j])
				}
			}
			if len(fields) == 2 {
				for _, f := range fields {
					assert.True(t, f.right-f.left >= 30 && f.bottom-f.top >= 30, "%+v", f)
				}
			}
		})
	})
}

// TestFormOfABrowser holds the form in which the HTML standard's serialising
// algorithm (13.3) gives markup back, where ours could differ.
func TestFormOfABrowser(t *testing.T) {
	each(t, func(t *testing.T, html string) {
		assert.NotContains(t, html, "/>")
		assert.NotContains(t, html, "<pre class=\"abc\">\n")
		assert.NotContains(t, html, "\r")
		for _, e := range regexp.MustCompile(`&[^;]*;`).FindAllString(html, -1) {
			assert.Contains(t, []string{"&amp;", "&lt;", "&gt;", "&quot;"}, e)
		}
		for _, a := range regexp.MustCompile(`="[^"]*"`).FindAllString(html, -1) {
			assert.NotContains(t, a, "<")
			assert.NotContains(t, a, "&lt;", "browsers differ on this in attributes")
		}
		inText := regexp.MustCompile(`>[^<]*<`).FindAllString(html, -1)
		for _, s := range inText {
			assert.NotContains(t, s, "&quot;", "a browser gives a plain quote back in text")
		}
	})
}

func TestTitleIsEscaped(t *testing.T) {
	html := markup(view([]string{sheets["long"]}))
	assert.Contains(t, html, `<h3>Long Way &lt;Round&gt; &amp; "Home"</h3>`)
	assert.Contains(t, html, "T:Long Way &lt;Round&gt; &amp; \"Home\"\n")
}

// TestPartsStay holds that the frame is the same whatever is chosen, and that
// the same view gives the same bytes.
func TestPartsStay(t *testing.T) {
	for name, text := range sheets {
		first := draw.Block(view([]string{text}))
		assert.Equal(t, first, draw.Block(view([]string{text})), name)
		for _, said := range []string{"fingers 12", "tuning C", "strings 22", "cut@2 on", "cut@1 always", "tempo 1/4=40", "why@1", "stay@2"} {
			parts := draw.Block(view([]string{text}, said))
			require.Len(t, parts, len(first), "%s %s", name, said)
			for i := range parts {
				assert.Equal(t, first[i].ID, parts[i].ID, "%s %s", name, said)
			}
		}
	}
}

// TestReadableWidth holds that a line of an ordinary tune is not so wide that
// its figures become too small on a phone of 320 pixels.
func TestReadableWidth(t *testing.T) {
	for _, name := range []string{"falling", "jig"} {
		pictures(t, markup(view([]string{sheets[name]})), func(svg *node) {
			assert.LessOrEqual(t, atoi(t, svg.attr("width")), 400, name)
		})
	}
}
