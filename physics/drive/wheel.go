package drive

import "wheelroom/physics/building"

// A Wheel is a handwheel by its masses.
type Wheel = building.Wheel
