// Package relay solves an electrical network of supplies, contacts,
// resistors, lamps, diodes and relay coils, exactly between one switching
// event and the next. It knows nothing of lifts.
//
// Units are SI. Node 0 is ground, the minus rail. A current through an
// element counts positive from its first node to its second.
//
// # How it is solved
//
// Every supply has an internal resistance, so the network without its coils
// is a mesh of conductances, and nodal analysis of it is symmetric and
// positive definite. Nodes are eliminated one by one by the star-mesh rule
//
//	g_ij += g_ik g_jk / Σ g_k
//
// in an order fixed when the circuit is sealed, smallest star first. That is
// sparse symmetric elimination without a single subtraction, so a leak of
// nanosiemens beside a closed contact of 20 S keeps its full precision.
//
// The states are the coil currents i. With R the resistances of the coils and
// Rth the Thevenin resistances between them,
//
//	L di/dt = -(R + Rth)(i - i∞)
//
// where i∞ is the resistive operating point of the whole network, found by a
// second elimination with each coil as its resistance. Coils that disturb one
// another form a cluster; each cluster is turned into its modes, so every
// current is a constant and a few exponentials:
//
//	i_c(t) = i∞_c + Σ_k w_ck e^(-λ_k t)
//
// Nothing is stepped. The instant at which a current meets a threshold is
// found on that sum with guaranteed bracketing, because two coupled coils may
// well rise and fall again.
//
// # Lamps
//
// A filament draws some fourteen times its current until it is hot. A lamp is
// therefore one of two resistances, cold or hot, and goes over from one to the
// other at an instant known beforehand: its temperature follows by the lag of
// package lamp whether it is fed. Going over is a switching event like any
// other. What lies between cold and hot is left out, and so is what a coil
// drives through a lamp on its way: fed is what the settled network says.
//
// # What is left out, and how much
//
// A tie between two coils is left out when it would move the current of a
// coil by less than tieTight (1e-5) of its pick-up current, or by less than
// tieLoose (5e-4) when that coil rests clear of its thresholds. The end point
// i∞ is always exact, so what is left out dies away with the transient. When
// more than clusterMost coils move at once, their weakest ties (each under
// tieStrong, one hundredth) are left out too. State.Slack gives the sum left
// out in the present topology: to first order it bounds the error this adds
// to any current, in units of its pick-up current.
//
// Left out of the model: the change of inductance with the armature, eddy
// currents, arcs, and contact bounce.
package relay
