package agree_test

import (
	"fmt"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
	"testing"
)

func TestZZ(t *testing.T) {
	o := find(t)
	seed, _ := strconv.Atoi(os.Getenv("SEED"))
	chance := rand.New(rand.NewPCG(uint64(seed), 5))
	pieces := []string{"|", ":", "|:", ":|", "||", "[", "]", "(", ")", "{", "}", "!", "\"", "-", "<", ">", ".", "^", "_", "=", "/", "2", "3", "1", "z", "Z", "&", "\\", "%", "~", "T", "M", " ", "\n", ",", "'", "+", "y", "x", "|1", ":|2", "[1", "[2", "(3", "[K:G]", "[M:3/4]", "[L:1/4]", " [V:2]", "P:A\n", "/2", "c'", "[ce]", "-|", "::", "|]", "[|", "#", "*", "@", ";", "?", "$", "`", "s", "w"}
	all := tunes()
	{
		var keep []invented
		for _, x := range all {
			bad := false
			for _, f := range x.features {
				for _, w := range []string{"after a double", "three times", "microtones", "overlay"} {
					if strings.Contains(f, w) {
						bad = true
					}
				}
			}
			if !bad {
				keep = append(keep, x)
			}
		}
		all = keep
	}
	var mut []invented
	n := 1200
	for range n {
		b := all[chance.IntN(len(all))]
		at := strings.Index(b.abc, "\nK:")
		if at < 0 {
			continue
		}
		body := at + 4
		text := b.abc
		for range 1 + chance.IntN(2) {
			p := body + chance.IntN(max(1, len(text)-body))
			if chance.IntN(8) == 0 {
				p = chance.IntN(len(text))
			}
			switch chance.IntN(3) {
			case 0:
				text = text[:p] + pieces[chance.IntN(len(pieces))] + text[p:]
			case 1:
				text = text[:p] + text[min(p+1, len(text)):]
			case 2:
				text = text[:p] + pieces[chance.IntN(len(pieces))] + text[min(p+1, len(text)):]
			}
		}
		mut = append(mut, invented{name: b.name, features: b.features, abc: text})
	}
	agreeN, bad := 0, 0
	for _, r := range readings(t, o, mut) {
		if len(r.abcjs) == 0 || !same(r.abc2midi, r.abcjs) {
			continue
		}
		agreeN++
		if !same(r.ours, r.abcjs) {
			bad++
			fmt.Printf("=== written %v %s\n%s\n--- theirs/ours %s\n", r.written, r.tune.name, r.tune.abc, where(r.abcjs, r.ours))
		}
	}
	fmt.Println("AGREE", agreeN, "BAD", bad, "OF", 2*len(mut))
}
