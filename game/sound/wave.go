package sound

import (
	"encoding/binary"
	"math"
)

// Rate is how many samples make one second.
const Rate = 24000

// A body rings when it is struck: partials that die away, and a burst of
// hiss. Times are seconds, levels are of the loudest partial.
type body struct {
	lastsS   float64
	level    float64 // of the whole, 0 to 1
	partials []partial
	hiss     float64 // level of the burst
	hissHz   float64 // above which the burst is dull
	hissS    float64 // in which it halves
	late     float64 // seconds after which the body is struck a second time, softer; 0 for never
}

type partial struct {
	hz, level float64
	halfS     float64 // in which it halves
}

var bodies = [count]body{
	RelayIn:      {0.09, 0.45, []partial{{950, 0.6, 0.006}, {2700, 1, 0.004}, {4600, 0.5, 0.003}}, 0.4, 6000, 0.002, 0.004},
	RelayOut:     {0.08, 0.32, []partial{{780, 0.7, 0.006}, {2200, 1, 0.004}, {3900, 0.3, 0.003}}, 0.3, 4500, 0.002, 0},
	ContactorIn:  {0.22, 0.85, []partial{{175, 1, 0.022}, {430, 0.7, 0.014}, {1250, 0.5, 0.006}, {2600, 0.25, 0.004}}, 0.5, 3500, 0.005, 0.011},
	ContactorOut: {0.20, 0.65, []partial{{150, 1, 0.020}, {390, 0.6, 0.012}, {1100, 0.4, 0.006}}, 0.4, 2500, 0.006, 0.018},
	RollerOn:     {0.10, 0.40, []partial{{560, 1, 0.010}, {1480, 0.6, 0.006}}, 0.3, 2500, 0.004, 0},
	RollerOff:    {0.08, 0.28, []partial{{480, 1, 0.009}, {1300, 0.5, 0.005}}, 0.2, 2000, 0.004, 0},
	BrakeLifts:   {0.20, 0.60, []partial{{310, 1, 0.018}, {880, 0.5, 0.010}}, 0.6, 1500, 0.025, 0},
	BrakeSets:    {0.35, 1.00, []partial{{92, 1, 0.045}, {215, 0.8, 0.030}, {540, 0.4, 0.012}}, 0.5, 1200, 0.012, 0.020},
	DoorCloses:   {0.30, 0.70, []partial{{135, 1, 0.035}, {335, 0.6, 0.022}, {790, 0.25, 0.012}}, 0.5, 1800, 0.010, 0.035},
}

// Samples computes a noise: numbers from −1 to 1, Rate to a second, from
// silence to silence. Slide is one second that can be played round and round.
func (n Noise) Samples() []float64 {
	if n == Slide {
		return slide()
	}
	b := bodies[n]
	out := make([]float64, int(b.lastsS*Rate))
	b.strike(out, 1)
	if b.late > 0 {
		b.strike(out[int(b.late*Rate):], 0.35)
	}
	const fadeS = 0.01
	fade := int(fadeS * Rate)
	for i := range fade {
		out[len(out)-1-i] *= float64(i) / float64(fade)
	}
	level(out, b.level)
	return out
}

// strike adds one blow to a sound.
func (b *body) strike(out []float64, loud float64) {
	h := hiss{seed: 1}
	for i := range out {
		t := float64(i) / Rate
		v := b.hiss * halved(t, b.hissS) * h.next(b.hissHz)
		for _, p := range b.partials {
			v += p.level * halved(t, p.halfS) * math.Sin(2*math.Pi*p.hz*t)
		}
		out[i] += loud * v * min(1, t/0.0008) // no blow is quite sudden
	}
}

// slide is a door on its rollers: dull hiss that swells with each turn of a
// roller.
func slide() []float64 {
	const turns, seamS = 7, 0.2 // turns of a roller in the second; where its ends are blended
	h := hiss{seed: 7}
	long := make([]float64, Rate+int(seamS*Rate))
	for i := range long {
		t := float64(i) / Rate
		long[i] = h.next(700) * (1 + 0.35*math.Sin(2*math.Pi*turns*t))
	}
	out, seam := long[:Rate], len(long)-Rate
	for i := range seam {
		share := float64(i) / float64(seam)
		out[i] = out[i]*math.Sqrt(share) + long[Rate+i]*math.Sqrt(1-share)
	}
	level(out, 0.22)
	return out
}

// A hiss is noise that is dull above a frequency. It is the same each time.
type hiss struct {
	seed uint32
	last float64
}

// next is one sample, by a first-order low pass over white noise.
func (h *hiss) next(hz float64) float64 {
	h.seed = h.seed*1664525 + 1013904223 // Numerical Recipes, quick generator (value from memory)
	white := float64(h.seed>>8)/float64(1<<23) - 1
	h.last += (white - h.last) * min(1, 2*math.Pi*hz/Rate)
	return h.last
}

// halved is 1 at 0 and half after each half-life.
func halved(t, halfS float64) float64 { return math.Exp2(-t / halfS) }

// level brings the loudest sample to a level.
func level(out []float64, to float64) {
	loudest := 0.0
	for _, v := range out {
		loudest = max(loudest, math.Abs(v))
	}
	for i := range out {
		out[i] *= to / loudest
	}
}

// WAV writes a noise as a file: 16 bits, one channel (Multimedia Programming
// Interface and Data Specifications 1.0, 1991, RIFF WAVE, PCM).
func (n Noise) WAV() []byte {
	samples := n.Samples()
	size := 2 * len(samples)
	w := append([]byte(nil), "RIFF"...)
	w = binary.LittleEndian.AppendUint32(w, uint32(36+size))
	w = append(w, "WAVEfmt "...)
	for _, v := range []any{uint32(16), uint16(1), uint16(1), uint32(Rate), uint32(2 * Rate), uint16(2), uint16(16)} {
		w, _ = binary.Append(w, binary.LittleEndian, v)
	}
	w = append(w, "data"...)
	w = binary.LittleEndian.AppendUint32(w, uint32(size))
	for _, v := range samples {
		w = binary.LittleEndian.AppendUint16(w, uint16(int16(math.Round(v*32767))))
	}
	return w
}
