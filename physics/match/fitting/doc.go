// Package fitting finds the rings that explain what a passenger saw. Whole
// numbers are searched exhaustively, the rest is fitted by least squares.
package fitting
