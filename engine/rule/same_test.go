package rule

import (
	"reflect"
	"testing"

	"github.com/stretchr/testify/assert"

	"readyhand/engine/hand"
	"readyhand/engine/harp"
)

// Rules that are the same charge the same: whatever is told apart by them, Same tells
// apart, and it knows of every part of them.
func TestSame(t *testing.T) {
	usual := func() Rules { return Rules{Charges: Usual(), Harp: harp.Default(), Hand: hand.Usual("right")} }
	r, s := usual(), usual()
	s.Hand.Name = "left"
	assert.True(t, r.Same(&s))
	for name, change := range map[string]func(*Rules){
		"Charges": func(r *Rules) { r.Charges[Hop]++ },
		"Harp":    func(r *Rules) { r.Harp.Spacing++ },
		"Hand":    func(r *Rules) { r.Hand.InUse[3] = false },
		"Lifted":  func(r *Rules) { r.Lifted = true },
	} {
		s := usual()
		change(&s)
		assert.False(t, r.Same(&s), name)
	}
	assert.Equal(t, 4, reflect.TypeOf(Rules{}).NumField(), "a new part of the rules: is it in Same, and here?")
	strings := usual()
	strings.Harp.Strings = append([]harp.String(nil), strings.Harp.Strings...)
	strings.Harp.Strings[5].At++
	assert.False(t, r.Same(&strings))
	limits := usual()
	limits.Hand.Limits[0][1].Most++
	assert.False(t, r.Same(&limits))
}
