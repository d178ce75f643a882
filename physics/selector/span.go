package selector

// A Span is the interval of car heights over which a contact is made, metres,
// with hysteresis: travelling up it makes at UpMake and breaks at UpBreak;
// travelling down it makes at DownMake and breaks at DownBreak.
// UpMake < UpBreak and DownBreak < DownMake; an end may be infinite.
type Span struct {
	UpMake, UpBreak     float64
	DownMake, DownBreak float64
}

// Between returns the span without hysteresis from lo to hi.
func Between(lo, hi float64) Span {
	return Span{UpMake: lo, UpBreak: hi, DownMake: hi, DownBreak: lo}
}

// About returns the span whose contact is made for width metres of travel in
// either direction, but lags behind the car: it makes and breaks half the
// hysteresis late, so that the two directions differ by the whole of it.
func About(centre, width, hysteresis float64) Span {
	lo, hi, lag := centre-width/2, centre+width/2, hysteresis/2
	return Span{UpMake: lo + lag, UpBreak: hi + lag, DownMake: hi - lag, DownBreak: lo - lag}
}

// Made reports whether the contact is made with the car at y when nothing is
// known of how it came there: made only if it would be so from below and from
// above. That is the narrower reading, [UpMake, DownMake] of a roller.
func (s Span) Made(y float64) bool {
	return s.UpMake <= y && y < s.UpBreak && s.DownBreak < y && y <= s.DownMake
}

// Moved returns the state of the contact after the car has gone straight from
// one height to another, given its state before. A contact has changed once
// the car stands at the edge.
func (s Span) Moved(made bool, from, to float64) bool {
	switch {
	case from < to && from < s.UpBreak && s.UpBreak <= to:
		return false
	case from < to && from < s.UpMake && s.UpMake <= to:
		return true
	case to < from && to <= s.DownBreak && s.DownBreak < from:
		return false
	case to < from && to <= s.DownMake && s.DownMake < from:
		return true
	}
	return made
}
