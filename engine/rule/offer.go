package rule

// Offer is a kind of move that the hand can make over a boundary, with all that is
// charged for it.
type Offer struct {
	Move Move
	Bill Bill
}

// Offers lists the moves that can be made over a crossing; Across takes the
// cheapest. None are listed where the hand is off the strings.
func (r *Rules) Offers(x *Crossing) (list []Offer) {
	for m := Connect; m <= Jump && !x.Forced; m++ {
		if m == Jump || r.legal(m, x) {
			o := Offer{m, Bill{Itemise: true}}
			r.take(&o.Bill, m, x)
			list = append(list, o)
		}
	}
	return list
}
