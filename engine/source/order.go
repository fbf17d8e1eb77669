package source

// Order sorts a list and keeps what compares as equal in its order. slices.SortFunc
// would be written out for every kind of list, at ten thousand bytes each of what
// every reader downloads; here only the moving is.
func Order[T any](list []T, compare func(a, b T) int) {
	if len(list) < 2 {
		return
	}
	order := merged(len(list), func(i, j int32) bool { return compare(list[i], list[j]) <= 0 })
	was := append([]T(nil), list...)
	for i, k := range order {
		list[i] = was[k]
	}
}

// merged gives the order of n things, by merging runs of one, of two, of four and so on.
func merged(n int, upTo func(i, j int32) bool) []int32 {
	order, next := make([]int32, n), make([]int32, n)
	for i := range order {
		order[i] = int32(i)
	}
	for run := 1; run < n; run *= 2 {
		for from := 0; from < n; from += 2 * run {
			middle, to := min(n, from+run), min(n, from+2*run)
			i, j := from, middle
			for k := from; k < to; k++ {
				if i < middle && (j == to || upTo(order[i], order[j])) {
					next[k] = order[i]
					i++
				} else {
					next[k] = order[j]
					j++
				}
			}
		}
		order, next = next, order
	}
	return order
}
