package study

import (
	"encoding/csv"
	"io"
	"math"

	"wheelroom/physics/drive"
)

// columns of a run in its series.
var columns = []string{"position_m", "speed_m_s", "acceleration_m_s2", "jerk_m_s3", "motor_rad_s", "torque_nm", "winding", "handwheel_j"}

// WriteCSV writes the run's samples (RFC 4180), time counted from the moment
// its contactors were in. Motion is signed as the machine's is, up positive.
func (r *Run) WriteCSV(w io.Writer) error {
	return series(w, []string{""}, []*Run{r})
}

// WriteCSV writes both runs on one clock: columns light_… and heavy_….
func (c *Comparison) WriteCSV(w io.Writer) error {
	return series(w, []string{"light_", "heavy_"}, []*Run{c.A.Run, c.B.Run})
}

// series writes runs beside one another, each on its own samples: their
// contactors come in at the same phase of the grid but for some microseconds,
// which the clock leaves out.
func series(w io.Writer, names []string, runs []*Run) error {
	out := csv.NewWriter(w)
	out.UseCRLF = true
	head, longest := []string{"time_s"}, 0
	jerks := make([][]float64, len(runs))
	for i, r := range runs {
		for _, c := range columns {
			head = append(head, names[i]+c)
		}
		longest = max(longest, len(r.CarM))
		jerks[i] = r.JerkMS3()
	}
	rows := [][]string{head}
	for k := range longest {
		row := []string{spell(float64(k)*runs[0].SampleS-runs[0].Marks.OnS, 4)}
		for i, r := range runs {
			row = append(row, r.row(k, jerks[i])...)
		}
		rows = append(rows, row)
	}
	// A buffered writer keeps its first error.
	_ = out.WriteAll(rows)
	return out.Error()
}

// row is the run at sample k; empty fields after its end.
func (r *Run) row(k int, jerk []float64) []string {
	if k >= len(r.CarM) {
		return make([]string, len(columns))
	}
	wheel := r.Machine.Train().HandwheelJ(&drive.State{OmegaRadS: r.MotorRadS[k]})
	fields := []string{}
	for _, v := range []struct {
		value    float64
		decimals int
	}{{r.CarM[k], 5}, {r.SpeedMS[k], 5}, {r.AccelMS2[k], 4}, {jerk[k], 3}, {r.MotorRadS[k], 3}, {r.AirgapNM[k], 2}, {math.NaN(), 0}, {wheel, 1}} {
		fields = append(fields, spell(v.value, v.decimals))
	}
	fields[6] = r.Running[k].String()
	return fields
}
