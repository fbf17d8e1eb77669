// Package choice is what a reader chose, as one line of text.
package choice
