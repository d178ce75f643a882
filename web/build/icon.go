package main

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"strconv"
	"strings"
)

// A mark is the drawing of icon.svg, as far as that uses SVG: a square of
// ground, circles, and paths of lines and arcs (M, l, a) with round ends.
type mark struct {
	side, corner float64
	ground       color.RGBA
	strokes      []stroke
}

// A stroke is a line along points, of twice the radius in width; with one
// point it is a disc, or with a ring's radius the ring round that point.
type stroke struct {
	ink    color.RGBA
	radius float64
	points [][2]float64
	ring   float64
}

// readMark reads the drawing. What it does not know is an error, so that no
// part of the mark is left out.
func readMark(text []byte) (*mark, error) {
	type shape struct {
		XMLName xml.Name
		Width   float64 `xml:"width,attr"`
		Height  float64 `xml:"height,attr"`
		Corner  float64 `xml:"rx,attr"`
		X       float64 `xml:"cx,attr"`
		Y       float64 `xml:"cy,attr"`
		R       float64 `xml:"r,attr"`
		D       string  `xml:"d,attr"`
		Fill    string  `xml:"fill,attr"`
		Stroke  string  `xml:"stroke,attr"`
		Thick   float64 `xml:"stroke-width,attr"`
	}
	var doc struct {
		Stroke string  `xml:"stroke,attr"`
		Thick  float64 `xml:"stroke-width,attr"`
		Shapes []shape `xml:",any"`
	}
	if err := xml.Unmarshal(text, &doc); err != nil {
		return nil, err
	}
	var m mark
	for _, s := range doc.Shapes {
		ink, thick := s.Stroke, s.Thick
		if ink == "" {
			ink = doc.Stroke
		}
		if thick == 0 {
			thick = doc.Thick
		}
		if ink == "none" {
			ink = s.Fill
		}
		c, err := hexColour(ink)
		if err != nil {
			return nil, err
		}
		switch name := s.XMLName.Local; {
		case name == "rect" && s.Width == s.Height:
			m.side, m.corner, m.ground = s.Width, s.Corner, c
		case name == "circle" && s.Stroke == "none":
			m.strokes = append(m.strokes, stroke{ink: c, radius: s.R, points: [][2]float64{{s.X, s.Y}}})
		case name == "circle":
			m.strokes = append(m.strokes, stroke{c, thick / 2, [][2]float64{{s.X, s.Y}}, s.R})
		case name == "path":
			lines, err := readPath(s.D)
			if err != nil {
				return nil, err
			}
			for _, points := range lines {
				m.strokes = append(m.strokes, stroke{ink: c, radius: thick / 2, points: points})
			}
		default:
			return nil, fmt.Errorf("<%s> is not known here", name)
		}
	}
	if m.side == 0 {
		return nil, fmt.Errorf("no ground")
	}
	return &m, nil
}

func hexColour(text string) (color.RGBA, error) {
	n, err := strconv.ParseUint(strings.TrimPrefix(text, "#"), 16, 24)
	if err != nil || len(text) != 7 {
		return color.RGBA{}, fmt.Errorf("%q is not a colour", text)
	}
	return color.RGBA{uint8(n >> 16), uint8(n >> 8), uint8(n), 255}, nil
}

// arc returns points on a circle, from one angle over a turn.
func arc(x, y, r, from, turn float64) [][2]float64 {
	pieces := 1 + int(math.Abs(turn)/0.1) // of the largest icon, 0.2 pixels off a circle
	var points [][2]float64
	for i := range pieces + 1 {
		sin, cos := math.Sincos(from + turn*float64(i)/float64(pieces))
		points = append(points, [2]float64{x + r*cos, y + r*sin})
	}
	return points
}

// readPath returns the lines of a path: M, and the relative l and a with equal
// radii and the small arc.
func readPath(d string) ([][][2]float64, error) {
	var lines [][][2]float64
	for d != "" {
		command := d[0]
		numbers, rest, err := readNumbers(d[1:])
		if err != nil {
			return nil, err
		}
		d = rest
		last := len(lines) - 1
		take := map[byte]int{'M': 2, 'l': 2, 'a': 7}[command]
		if take == 0 || len(numbers)%take != 0 || last < 0 && command != 'M' {
			return nil, fmt.Errorf("a path with %c and %d numbers is not known here", command, len(numbers))
		}
		if command == 'M' {
			lines = append(lines, nil)
			last++
		}
		for ; len(numbers) > 0; numbers = numbers[take:] {
			end := [2]float64{numbers[take-2], numbers[take-1]}
			if command == 'M' {
				lines[last] = append(lines[last], end)
				continue
			}
			at := lines[last][len(lines[last])-1]
			end[0] += at[0]
			end[1] += at[1]
			if command == 'l' {
				lines[last] = append(lines[last], end)
				continue
			}
			if numbers[0] != numbers[1] || numbers[3] != 0 {
				return nil, fmt.Errorf("only small arcs of circles are known here")
			}
			lines[last] = append(lines[last], between(at, end, numbers[0], numbers[4] != 0)...)
		}
	}
	return lines, nil
}

// between returns the small arc of a circle from a to b, clockwise on the
// screen where sweep is set (SVG 1.1, F.6.5 with equal radii).
func between(a, b [2]float64, r float64, sweep bool) [][2]float64 {
	dx, dy := b[0]-a[0], b[1]-a[1]
	half := math.Hypot(dx, dy) / 2
	away := math.Sqrt(max(0, r*r-half*half)) / (2 * half)
	if !sweep {
		away = -away
	}
	x, y := (a[0]+b[0])/2-away*dy, (a[1]+b[1])/2+away*dx
	from := math.Atan2(a[1]-y, a[0]-x)
	turn := 2 * math.Asin(min(1, half/r))
	if !sweep {
		turn = -turn
	}
	return arc(x, y, r, from, turn)
}

// readNumbers reads numbers as SVG writes them: "-.9-5.4" are two.
func readNumbers(text string) (numbers []float64, rest string, err error) {
	for {
		text = strings.TrimLeft(text, " ,")
		end, dots := 0, 0
		for ; end < len(text); end++ {
			c := text[end]
			if c == '.' {
				dots++
			}
			if c != '.' && (c < '0' || c > '9') && (c != '-' || end > 0) || dots > 1 {
				break
			}
		}
		if end == 0 {
			return numbers, text, nil
		}
		n, err := strconv.ParseFloat(text[:end], 64)
		if err != nil {
			return nil, "", err
		}
		numbers, text = append(numbers, n), text[end:]
	}
}

// png draws the mark in a square of so many pixels. A maskable one has ground
// up to its edges and keeps the mark inside the circle of 40 % of the side
// that no mask cuts (W3C Web Application Manifest, "safe zone").
func (m *mark) png(side int, maskable bool) []byte {
	scale, corner := float64(side)/m.side, m.corner
	centre := m.side / 2
	shrink := 1.0
	if maskable {
		corner = 0
		reach := 0.0
		for _, s := range m.strokes {
			for _, p := range s.points {
				reach = max(reach, math.Hypot(p[0]-centre, p[1]-centre)+s.ring+s.radius)
			}
		}
		shrink = 0.4 * m.side / reach
	}
	picture := image.NewNRGBA(image.Rect(0, 0, side, side))
	for py := range side {
		for px := range side {
			x, y := (float64(px)+0.5)/scale, (float64(py)+0.5)/scale
			// Distance to a square with rounded corners, negative inside.
			dx, dy := math.Abs(x-centre)-centre+corner, math.Abs(y-centre)-centre+corner
			outside := math.Hypot(max(dx, 0), max(dy, 0)) + min(max(dx, dy), 0) - corner
			alpha := cover(outside * scale)
			x, y = centre+(x-centre)/shrink, centre+(y-centre)/shrink
			ink := [3]float64{float64(m.ground.R), float64(m.ground.G), float64(m.ground.B)}
			for _, s := range m.strokes {
				k := cover((s.distance(x, y) - s.radius) * scale * shrink)
				for i, c := range [3]uint8{s.ink.R, s.ink.G, s.ink.B} {
					ink[i] += k * (float64(c) - ink[i])
				}
			}
			picture.SetNRGBA(px, py, color.NRGBA{uint8(ink[0] + 0.5), uint8(ink[1] + 0.5), uint8(ink[2] + 0.5), uint8(255*alpha + 0.5)})
		}
	}
	var out bytes.Buffer
	if err := (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(&out, picture); err != nil {
		panic("build: " + err.Error()) // a buffer takes everything
	}
	return out.Bytes()
}

// cover is the share of a pixel inside an edge that runs so many pixels away
// from its middle.
func cover(distance float64) float64 { return min(1, max(0, 0.5-distance)) }

// distance from a point to the line of the stroke.
func (s *stroke) distance(x, y float64) float64 {
	a := s.points[0]
	least := math.Abs(math.Hypot(x-a[0], y-a[1]) - s.ring)
	for _, b := range s.points[1:] {
		dx, dy := b[0]-a[0], b[1]-a[1]
		along := ((x-a[0])*dx + (y-a[1])*dy) / max(dx*dx+dy*dy, 1e-12)
		along = min(1, max(0, along))
		least = min(least, math.Hypot(x-a[0]-along*dx, y-a[1]-along*dy))
		a = b
	}
	return least
}
