package lift

// A Part names one thing of the machine, in the words of the trace: "call.3",
// "lamp.3", "rim.3", "advance-up.3", "advance-down.3", "direction.3",
// "relay.up", or a thing outside the trace: "landing.3", "vane.3", "button.3",
// "terminal.7", "brush", "crossover", "car", "counterweight", "handwheel",
// "motor", "brake", "sheave", "car-door", "lock", "cam", "stop-switch",
// "governor", "safety-gear", "overload", "isolator", "brake-lever", "slow-down-top", "slow-down-bottom",
// "stop-limit-top", "stop-limit-bottom", "final-limit-top",
// "final-limit-bottom". Floors stand by the name the file gives them.
type Part string
