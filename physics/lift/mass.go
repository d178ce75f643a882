package lift

import "wheelroom/physics/drive"

// Train returns what the machine moves: motor, gear, handwheel and masses.
func (m *Machine) Train() *drive.Train { return &m.train }

// Drive returns the state of motor, car and brake now. Its counters of energy
// have run since the machine was made.
func (m *Machine) Drive() drive.State { return m.drive }

// Fed returns what reaches motor and brake now.
func (m *Machine) Fed() drive.Feed { return m.feed }
