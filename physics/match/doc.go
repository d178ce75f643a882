// Package match is a ring matched to what a passenger saw of a lift's position
// lamps on one trip: the observation, read from CSV, and the result, in data,
// words and tables. Its package fitting finds the one from the other.
//
// The observer notes when each lamp comes on and goes out. The heights of the
// landings are known from the building file; unknown are the ring (terminals
// per floor, how many are joined, where the first one stands, how wide brush
// and terminal are together), the trip (speed, start) and the hand (how much
// later it taps when a lamp comes on than when one goes out).
//
// A lamp shows only that the brush has reached a terminal's edge. So a trip
// whose speed nobody knows shows terminals a second, not terminals a floor, and
// the answer is then the set of rings that fit. Seconds from any zero; heights
// in metres above the lowest landing, up positive.
package match
