package building

// joins: every join made by hand names a floor of the building or none, and no
// terminal is joined twice. Whether the ring has that terminal, and every
// floor one, only the ring knows.
func (c *checker) joins() {
	first := map[int]int{}
	for i, j := range c.plan.Selector.Joins {
		path := "selector.joins[" + itoa(i) + "]"
		if c.sound("floors", path+".floor") && j.Floor != Blank && c.plan.Floor(j.Floor) < 0 {
			c.fail(path+".floor", "join-floor", "floor", j.Floor, "blank", Blank)
		}
		if !c.sound(path + ".terminal") {
			continue
		}
		if k, doubled := first[j.Terminal]; doubled {
			c.fail(path+".terminal", "join-twice", "terminal", j.Terminal,
				"first", c.plan.Selector.Joins[k].Floor, "second", j.Floor)
			continue
		}
		first[j.Terminal] = i
	}
}
