package engine

import (
	"strings"

	"readyhand/engine/choice"
	"readyhand/engine/explain"
	"readyhand/engine/source"
	"readyhand/engine/vary"
)

// Course is what holds in every tune of a course: its house fingerings. The zero
// Course has none.
type Course struct{ house choice.Choice }

// NewCourse reads house fingerings, one on a line: "cut 1 2", "three on a string
// 3 2 1 or 4 3 2", "0 +4 +7 4 2 1". Lines that cannot be obeyed are remarks.
func NewCourse(house string) (Course, []source.Remark) {
	c, remarks := vary.House(source.NewText(house))
	return Course{c}, remarks
}

// Fingers writes a house fingering as it is written in a course: "1 2".
func Fingers(way []int8) string { return explain.Fingers(way) }

// String gives the house fingerings, one on a line, as NewCourse reads them.
func (c Course) String() string { return strings.ReplaceAll(c.house.String(), ";", "\n") }

// Read reads one tune of the course in ABC with its %%ready lines.
func (c Course) Read(abc string) Block {
	b := Read(abc)
	b.Own = b.Own.Over(c.house)
	return b
}

// Open is Open for a page of the course.
func (c Course) Open(blocks []string, address, kept string) Page {
	return open(c, blocks, address, kept)
}
