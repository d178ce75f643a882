package trace

import (
	"strconv"
	"strings"

	"wheelroom/physics/lift"
)

// A Snapshot is every signal at one instant, grouped as a page wants them.
// Calls, lamps and relays are keyed by what follows the point of the signal's
// name ("3", "up-line"); switches keep the whole name ("rim.3",
// "direction.3"), since several tracks have one floor.
type Snapshot struct {
	TimeS    float64        `json:"time_s"`
	Car      Car            `json:"car"`
	Calls    map[string]int `json:"calls"`
	Lamps    map[string]int `json:"lamps"`
	Relays   map[string]int `json:"relays"`
	Switches map[string]any `json:"switches"`
	Stopped  string         `json:"stopped,omitempty"`
}

// Car is where the car is and how its doors stand.
type Car struct {
	PositionM float64 `json:"position_m"`
	SpeedMS   float64 `json:"speed_m_s"`
	Stop      string  `json:"stop"`
	Door      string  `json:"door"`
}

// Look returns the machine's snapshot.
func Look(m *lift.Machine) Snapshot {
	s := Snapshot{
		TimeS: m.TimeS(), Stopped: m.Stopped(),
		Calls: map[string]int{}, Lamps: map[string]int{}, Relays: map[string]int{}, Switches: map[string]any{},
	}
	for _, r := range Signals(m) {
		kind, rest, _ := strings.Cut(r.Signal, ".")
		switch kind {
		case "call":
			s.Calls[rest] = int(r.Value[0] - '0')
		case "lamp":
			s.Lamps[rest] = int(r.Value[0] - '0')
		case "relay":
			s.Relays[rest] = int(r.Value[0] - '0')
		case "direction":
			s.Switches[r.Signal] = r.Value
		case "rim", "advance-up", "advance-down":
			s.Switches[r.Signal] = int(r.Value[0] - '0')
		case "stop":
			s.Car.Stop = r.Value
		case "door":
			s.Car.Door = r.Value
		case "car":
			v, err := strconv.ParseFloat(r.Value, 64)
			if err != nil {
				panic("trace: " + r.Signal + " is no number: " + r.Value)
			}
			if rest == "position_m" {
				s.Car.PositionM = v
			} else {
				s.Car.SpeedMS = v
			}
		}
	}
	return s
}
