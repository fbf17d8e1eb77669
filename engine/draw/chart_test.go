package draw_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"readyhand/engine"
)

// TestChartMarkup: a chart is whole markup in which every name is there once, every
// line of a table is as long as its head, and every button carries its command.
func TestChartMarkup(t *testing.T) {
	for _, kept := range []string{"", "fingers 123;house cut 1 2", "strings 10;lowest C4"} {
		page := engine.Open([]string{engine.ChartLine + "\n"}, "", kept)
		seen, usual, tables := map[string]bool{}, 0, 0
		parse(t, page.Markup(0)).walk(func(n *node) {
			if id := n.attr("id"); id != "" {
				assert.False(t, seen[id], "%s stands twice", id)
				seen[id] = true
				assert.True(t, strings.HasPrefix(id, "b1-"), id)
			}
			if n.attr("class") == "level usual" {
				assert.True(t, strings.HasPrefix(n.attr("data-do"), "house "))
				if n.attr("aria-pressed") == "true" {
					usual++
					assert.Equal(t, "house cut off", n.attr("data-do"))
				}
			}
			if n.XMLName.Local != "table" {
				return
			}
			tables++
			var wide, left int
			n.walk(func(row *node) {
				if row.XMLName.Local != "tr" {
					return
				}
				cells := 0
				for i := range row.Children {
					cells++
					if span := row.Children[i].attr("colspan"); span != "" {
						cells += atoi(t, span) - 1
					}
					if span := row.Children[i].attr("rowspan"); span != "" {
						left = atoi(t, span)
					}
				}
				if wide == 0 {
					wide = cells
				}
				if left > 0 && row.Children[0].attr("scope") != "rowgroup" {
					cells++ // the finger at the head of these lines
				}
				left--
				assert.Equal(t, wide, cells)
			})
		})
		assert.Positive(t, tables)
		assert.Equal(t, strings.Count(kept, "cut"), usual)
	}
}
