package building_test

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/building"
	"wheelroom/physics/document"
	"wheelroom/physics/phrase"
)

// each calls visit with every number a building file may give and its path.
func each(fields []document.Field, path string, visit func(path string, f document.Field)) {
	for _, f := range fields {
		switch f.Kind {
		case document.Map:
			each(f.Fields, path+f.Key+".", visit)
		case document.Real, document.Whole:
			visit(path+f.Key, f)
		}
	}
}

// file is a bare building with one more value.
func file(path, value string) []byte {
	text, indent := bare, ""
	keys := strings.Split(path, ".")
	for _, section := range keys[:len(keys)-1] {
		text += indent + section + ":\n"
		indent += "  "
	}
	return []byte(text + indent + keys[len(keys)-1] + ": " + value + "\n")
}

// TestEveryLimit: each number is refused just outside its limits, at its place,
// and not for its size at the limits themselves.
func TestEveryLimit(t *testing.T) {
	count := 0
	each(building.Fields(), "", func(path string, f document.Field) {
		if path == "version" {
			return
		}
		count++
		depth := strings.Count(path, ".") + 1
		line, col := 2+depth, len(f.Key)+2*depth+1
		step := 1.0
		if f.Kind == document.Real {
			step = math.Max(math.Abs(f.Limit.Min), math.Abs(f.Limit.Max)) * 1e-9
		}
		for _, c := range []struct {
			value float64
			id    string
		}{
			{f.Limit.Min - step, "document.number-too-small"}, {f.Limit.Min, ""},
			{f.Limit.Max, ""}, {f.Limit.Max + step, "document.number-too-large"},
		} {
			value := strconv.FormatFloat(c.value, 'f', -1, 64)
			_, problems := building.Read("x", file(path, value))
			var ids []string
			for _, p := range problems {
				if strings.HasPrefix(p.Phrase.ID, "document.") {
					ids = append(ids, p.Phrase.ID)
					assert.Equal(t, []int{line, col}, []int{p.Line, p.Col}, "%s %s", path, value)
					assert.Equal(t, path, p.Path)
				}
			}
			if c.id == "" {
				assert.Empty(t, ids, "%s: %s", path, value)
			} else {
				assert.Equal(t, []string{c.id}, ids, "%s: %s", path, value)
			}
		}
	})
	assert.Greater(t, count, 50)
}

// TestEveryLimitHasAReason, in words that can follow "because".
func TestEveryLimitHasAReason(t *testing.T) {
	c := words(t)
	var walk func(fields []document.Field)
	walk = func(fields []document.Field) {
		for _, f := range fields {
			walk(f.Fields)
			if f.Kind == document.Map {
				continue
			}
			if assert.True(t, c.Has(f.Limit.Why), "%s %s", f.Key, f.Limit.Why) {
				why := c.Text(phrase.Of(f.Limit.Why))
				assert.False(t, strings.HasSuffix(why, "."), why)
				assert.Equal(t, strings.ToLower(why[:1]), why[:1], why)
			}
		}
	}
	walk(building.Fields())
}

// TestDefaultsKeepTheLimits: what a file may leave out is what it may write.
func TestDefaultsKeepTheLimits(t *testing.T) {
	each(building.Fields(), "", func(path string, f document.Field) {
		if f.Default == nil {
			return
		}
		v, real := f.Default.(float64)
		if n, whole := f.Default.(int); whole {
			v, real = float64(n), true
		}
		require.True(t, real, path)
		assert.GreaterOrEqual(t, v, f.Limit.Min, path)
		assert.LessOrEqual(t, v, f.Limit.Max, path)
	})
}

// TestUnitsStandInTheKey: the unit a limit is shown with is the one its key ends in.
func TestUnitsStandInTheKey(t *testing.T) {
	endings := map[string]string{"m": "_m", "kg": "_kg", "kg/m": "_kg_per_m", "N": "_n", "m/s": "_m_s", "Hz": "_hz",
		"kg·m²": "_kg_m2", "N·m": "_nm", "ms": "_ms", "s": "_s", "°": "_deg", "V": "_v"}
	each(building.Fields(), "", func(path string, f document.Field) {
		if f.Limit.Unit == "" {
			return
		}
		require.Contains(t, endings, f.Limit.Unit, path)
		assert.True(t, strings.HasSuffix(f.Key, endings[f.Limit.Unit]), "%s is in %s", path, f.Limit.Unit)
	})
}

func TestAdvance(t *testing.T) {
	p := building.Evenly("x", 3, 3)
	assert.Equal(t, 2.94, building.MostAdvanceM(&p), "2.94 + 0.05 is under 3, 2.95 + 0.05 is not")
	p.Floors[2].HeightM = 6.207
	storey, below := building.SmallestStorey(&p)
	assert.Equal(t, []any{3.0, 0}, []any{storey, below})
	p.Floors[1].HeightM = 3.207
	_, below = building.SmallestStorey(&p)
	assert.Equal(t, 1, below)
}

// TestWhatToPointAt when a value is not in the file under its own key.
func TestWhatToPointAt(t *testing.T) {
	for _, c := range []struct{ text, path, want string }{
		{"selector: {advance_up_m: 1}", "selector.advance_up_m", "selector.advance_up_m"},
		{"selector: {advance_m: 1}", "selector.advance_up_m", "selector.advance_m"},
		{"selector: {advance_up_m: 1}", "selector.advance_m", "selector.advance_m"},
		{"machine: {handwheel_kg_m2: 3}", "selector.advance_m", "machine.handwheel_kg_m2"},
		{"machine: {handwheel_kg_m2: 3}", "shaft.vane_half_m", "machine.handwheel_kg_m2"},
		{"machine: {handwheel_kg_m2: 3}", "brake.torque_nm", "brake.torque_nm"},
	} {
		assert.Equal(t, c.want, building.Cause([]byte(c.text), c.path), c.text+" "+c.path)
	}
}

func TestSchema(t *testing.T) {
	c := words(t)
	var got struct {
		Required   []string
		Properties map[string]struct {
			Properties map[string]struct {
				Minimum, Maximum float64
				Description      string
			}
		}
	}
	require.NoError(t, json.Unmarshal(building.Schema(c.Text), &got))
	assert.Equal(t, []string{"name", "floors"}, got.Required)
	handwheel := got.Properties["machine"].Properties["handwheel_kg_m2"]
	assert.Equal(t, 6.0, handwheel.Maximum)
	assert.True(t, strings.HasPrefix(handwheel.Description, "In kg·m². Limited because "), handwheel.Description)
	assert.Empty(t, c.Missing())
}

// TestEveryMessageHasWords: each identity in the code is worded, and each
// worded one is in the code.
func TestEveryMessageHasWords(t *testing.T) {
	used := map[string]bool{}
	sources, err := filepath.Glob("*.go")
	require.NoError(t, err)
	whole := regexp.MustCompile(`"(building\.[a-z0-9.-]*[a-z0-9])"`)
	said := regexp.MustCompile(`c\.(?:fail|warn)\([^"]*(?:"[a-z_.]+", )?"([a-z0-9-]+)"`)
	for _, name := range sources {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		for _, m := range whole.FindAllStringSubmatch(string(text), -1) {
			used[m[1]] = true
		}
		for _, m := range said.FindAllStringSubmatch(string(text), -1) {
			used["building."+m[1]] = true
		}
	}
	require.Greater(t, len(used), 50)
	c := words(t)
	for name := range used {
		assert.True(t, c.Has(name), "no words for %s", name)
	}
	for _, name := range c.IDs() {
		if strings.HasPrefix(name, "building.") {
			assert.True(t, used[name], "%s is worded and never said", name)
		}
	}
}
