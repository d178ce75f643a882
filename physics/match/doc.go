// Package match fits a ring to what a passenger saw of a lift's position lamps
// on one trip.
//
// The observer notes when each lamp comes on and goes out. The heights of the
// landings are known from the building file; unknown are the ring (terminals
// per floor, how many are joined, where the first one stands, how wide brush
// and terminal are together), the trip (speed, start) and the hand (how much
// later it taps when a lamp comes on than when one goes out). Whole numbers are
// searched exhaustively, the rest is fitted by least squares.
//
// A lamp shows only that the brush has reached a terminal's edge. So a trip
// whose speed nobody knows shows terminals a second, not terminals a floor, and
// the answer is then the set of rings that fit. Seconds from any zero; heights
// in metres above the lowest landing, up positive.
package match
