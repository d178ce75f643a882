// Package bench looks at the ring of a building's selector by itself: what it
// shows at every height (Lay), which other ring would part all lamps
// (Propose), and what a passenger sees of it on a ride (Take).
//
// Heights are metres of the car above the lowest landing, up positive; angles
// degrees, clockwise from the lowest landing. Full speed is the plan's rated
// speed, slow speed that of the slow winding's field, which a creeping car
// keeps within a few per cent.
package bench
