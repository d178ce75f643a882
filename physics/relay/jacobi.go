package relay

import "math"

// jacobi finds the eigenvalues and eigenvectors of the symmetric n by n
// matrix a by cyclic rotations, which keep small eigenvalues beside large
// ones accurate. Eigenvalues end on the diagonal of a, eigenvectors in the
// columns of q. Rotations and sums have a fixed order, so every target gets
// the same bits. (Golub and Van Loan, Matrix Computations, cyclic Jacobi;
// value from memory.)
func jacobi(a, q []float64, n int) {
	for i := range q[:n*n] {
		q[i] = 0
	}
	for i := 0; i < n; i++ {
		q[i*n+i] = 1
	}
	for sweep := 0; sweep < 30; sweep++ {
		turned := false
		for i := 0; i < n-1; i++ {
			for j := i + 1; j < n; j++ {
				off := a[i*n+j]
				ii, jj := a[i*n+i], a[j*n+j]
				if math.Abs(off) <= 1e-16*math.Sqrt(math.Abs(ii))*math.Sqrt(math.Abs(jj)) {
					continue
				}
				turned = true
				turn(a, q, n, i, j, off, ii, jj)
			}
		}
		if !turned {
			return
		}
	}
}

// turn rotates rows and columns i and j so that a_ij becomes 0.
func turn(a, q []float64, n, i, j int, off, ii, jj float64) {
	theta := (jj - ii) / (2 * off)
	t := 1 / (math.Abs(theta) + math.Hypot(theta, 1))
	if theta < 0 {
		t = -t
	}
	c := 1 / math.Sqrt(float64(t*t)+1)
	s := t * c
	for k := 0; k < n; k++ {
		if k != i && k != j {
			x, y := a[k*n+i], a[k*n+j]
			x, y = float64(c*x)-float64(s*y), float64(s*x)+float64(c*y)
			a[k*n+i], a[i*n+k] = x, x
			a[k*n+j], a[j*n+k] = y, y
		}
		x, y := q[k*n+i], q[k*n+j]
		q[k*n+i], q[k*n+j] = float64(c*x)-float64(s*y), float64(s*x)+float64(c*y)
	}
	a[i*n+i] = ii - float64(t*off)
	a[j*n+j] = jj + float64(t*off)
	a[i*n+j], a[j*n+i] = 0, 0
}
