// Package tutor takes a learner through a lesson: it lets the machine run to
// the frozen frame, poses the question, has the answer committed, runs on in
// segments, asks what happened and explains.
//
// The order is the point (Crouch, Fagen, Callan, Mazur 2004, American Journal
// of Physics 72: a demonstration watched without predicting taught no more
// than none). The tutor alone moves the machine, and what is asked about is
// computed only after the answer has been committed, so nothing can show it
// before; afterwards nothing can change the answer.
//
// A Tutor is driven by Do (what the learner does) and Tick (the viewer's
// clock), and shows itself as a Panel. It has no clock and draws nothing; the
// same actions after the same beats give the same lesson, which is how State
// and Restore bring one back. Check runs a lesson without a learner and says
// what is wrong with its file.
package tutor
