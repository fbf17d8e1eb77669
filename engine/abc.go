package engine

import (
	"slices"
	"strconv"
	"strings"

	"readyhand/engine/choice"
	"readyhand/engine/read"
	"readyhand/engine/source"
	"readyhand/engine/tune"
	"readyhand/engine/vary"
)

// ABC prints the tune as strict ABC 2.1, transposed as the sentences ask or, if
// they do not, as its own lines do; with the remarks that concerns.
func (b Block) ABC(sentences ...string) (string, []source.Remark) {
	var c choice.Choice
	for _, s := range sentences {
		c, _ = choice.Do(c, s)
	}
	moved, remarks := b.transposed(c.Over(b.Own))
	t := moved.Tune
	if t.Moved != (tune.Move{}) { // or else who reads it would move it again
		t.Settings = nil
		for _, s := range moved.Tune.Settings {
			parts := slices.DeleteFunc(strings.Split(s.Text, ";"), func(part string) bool {
				return strings.HasPrefix(strings.ToLower(strings.TrimSpace(part)), "transpose")
			})
			if s.Text = strings.Join(parts, ";"); s.Text != "" {
				t.Settings = append(t.Settings, s)
			}
		}
	}
	return read.Write(t), remarks
}

// transposed gives the block with its tune moved as a choice asks.
func (b Block) transposed(c choice.Choice) (Block, []source.Remark) {
	to, said := c.Transpose()
	if !said && b.Hands.Moved == (tune.Move{}) {
		return b, nil
	}
	hands, remarks := vary.Transpose(b.Hands, c.Harp(), to)
	b.Hands = hands
	b.Tune, _ = b.Tune.MovedTo(hands.Moved)
	return b, remarks
}

// inKey says where a tune was moved to.
func (a *Answer) inKey() string {
	if a.Block.Hands.Moved == (tune.Move{}) {
		return "The tune is where it is written again."
	}
	strings := strconv.Itoa(max(a.Block.Hands.Moved.Letters, -a.Block.Hands.Moved.Letters))
	where := " strings up"
	if a.Block.Hands.Moved.Letters < 0 {
		where = " strings down"
	}
	if strings == "1" {
		where = where[:7] + where[8:]
	}
	return "The tune lies " + strings + where + " now: " + a.Block.Hands.Key.Name + "."
}
