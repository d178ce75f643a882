package building

import "wheelroom/physics/document"

// Version is the newest version of the building file this program reads.
const Version = 1

// Limits that more than one check needs.
const (
	minFloors, maxFloors = 2, 32
	minStoreyM           = 2.2
	maxTravelM           = 120
	maxNameLetters       = 4
	mostJoins            = 320 // more terminals than a ring of 32 floors has
)

// Full speeds of a car, metres a second: what a building file may say, and
// what is looked for in one that was watched.
const (
	LeastSpeedMS = 0.1
	MostSpeedMS  = 2.5
)

// Schemes are the control schemes a file may ask for.
var Schemes = []string{"direct", "interlocked", "directional", "two-button"}

// declare says everything about the keys of a building file: their order,
// units, limits and the reasons. Reading, writing, the schema and any form
// follow it.
func declare(p *Plan) func(m *document.Mapping) {
	return func(m *document.Mapping) {
		m.Need("name", "floors")
		m.Version(&p.Version, Version)
		Declare(m, p)
	}
}

func floor(m *document.Mapping, f *Floor) {
	m.Need("name", "height_m")
	m.Text("name", &f.Name, document.Count(1, maxNameLetters, "building.why-floor-name"))
	m.Float("height_m", &f.HeightM, document.Between(0, maxTravelM, "m", "building.why-height"))
}

func (l *Lift) declare(m *document.Mapping) {
	m.Float("car_kg", &l.CarKG, document.Between(100, 5000, "kg", "building.why-car"))
	m.Float("rated_load_kg", &l.RatedLoadKG, document.Between(75, 5000, "kg", "building.why-rated-load"))
	m.Float("load_kg", &l.LoadKG, document.Between(0, 6250, "kg", "building.why-load"))
	m.Float("balance", &l.Balance, document.Between(0, 1, "", "building.why-balance"))
	m.Float("rope_kg_per_m", &l.RopeKGPerM, document.Between(0, 20, "kg/m", "building.why-rope"))
	m.Float("guide_friction_n", &l.GuideFrictionN, document.Between(0, 5000, "N", "building.why-friction"))
}

func (h *Machine) declare(m *document.Mapping) {
	m.Float("rated_speed_m_s", &h.RatedSpeedMS, document.Between(LeastSpeedMS, MostSpeedMS, "m/s", "building.why-rated-speed"))
	m.Float("sheave_diameter_m", &h.SheaveDiameterM, document.Between(0.2, 1.5, "m", "building.why-sheave"))
	m.Float("gear_ratio", &h.GearRatio, document.Between(5, 150, "", "building.why-gear"))
	m.Float("gear_efficiency", &h.GearEfficiency, document.Between(0.3, 0.95, "", "building.why-gear-efficiency"))
	m.Int("roping", &h.Roping, document.Between(1, 2, "", "building.why-roping"))
	m.Float("supply_hz", &h.SupplyHz, document.Between(16, 65, "Hz", "building.why-supply-hz"))
	m.Int("fast_poles", &h.FastPoles, document.Between(2, 12, "", "building.why-poles"))
	m.Int("slow_poles", &h.SlowPoles, document.Between(4, 48, "", "building.why-poles"))
	m.Float("handwheel_kg_m2", &h.HandwheelKGM2, document.Between(0, 6, "kg·m²", "building.why-handwheel"))
	m.Map("handwheel", h.Handwheel.declare)
	m.Float("rotor_kg_m2", &h.RotorKGM2, document.Between(0.01, 2, "kg·m²", "building.why-rotor"))
	m.Float("shaft_friction_nm", &h.ShaftFrictionNM, document.Between(0, 50, "N·m", "building.why-friction"))
}

func (h *Handwheel) declare(m *document.Mapping) {
	m.Maybe("rim_kg", &h.RimKG, document.Between(0, 500, "kg", "building.why-wheel-mass"))
	m.Maybe("outer_m", &h.OuterM, document.Between(0.1, 1.5, "m", "building.why-wheel-diameter"))
	m.Maybe("inner_m", &h.InnerM, document.Between(0.05, 1.5, "m", "building.why-wheel-diameter"))
	m.Maybe("disc_kg", &h.DiscKG, document.Between(0, 500, "kg", "building.why-wheel-mass"))
}

func (w *Motor) declare(m *document.Mapping) {
	m.Float("fast_breakdown_nm", &w.FastBreakdownNM, document.Between(5, 2000, "N·m", "building.why-breakdown"))
	m.Float("fast_breakdown_slip", &w.FastBreakdownSlip, document.Between(0.03, 2, "", "building.why-slip"))
	m.Float("fast_stator_ratio", &w.FastStatorRatio, document.Between(0, 3, "", "building.why-stator"))
	m.Float("slow_breakdown_nm", &w.SlowBreakdownNM, document.Between(5, 2000, "N·m", "building.why-breakdown"))
	m.Float("slow_breakdown_slip", &w.SlowBreakdownSlip, document.Between(0.03, 2, "", "building.why-slip"))
	m.Float("slow_stator_ratio", &w.SlowStatorRatio, document.Between(0, 3, "", "building.why-stator"))
	m.Float("torque_lag_ms", &w.TorqueLagS, document.Milliseconds(5, 500, "building.why-torque-lag"))
	m.Float("change_ms", &w.ChangeS, document.Milliseconds(0, 500, "building.why-change"))
}

func (b *Brake) declare(m *document.Mapping) {
	m.Float("torque_nm", &b.TorqueNM, document.Between(10, 5000, "N·m", "building.why-brake"))
	m.Float("lift_ms", &b.LiftS, document.Milliseconds(0, 1000, "building.why-brake-time"))
	m.Float("lift_ramp_ms", &b.LiftRampS, document.Milliseconds(1, 1000, "building.why-brake-time"))
	m.Float("set_ms", &b.SetS, document.Milliseconds(0, 1000, "building.why-brake-time"))
	m.Float("set_ramp_ms", &b.SetRampS, document.Milliseconds(1, 1000, "building.why-brake-time"))
}

func (s *Selector) declare(m *document.Mapping) {
	m.Float("span_deg", &s.SpanDeg, document.Between(20, 350, "°", "building.why-span"))
	m.Float("terminals_per_floor", &s.TerminalsPerFloor, document.Between(1, 8, "", "building.why-terminals"))
	m.Int("live_terminals", &s.LiveTerminals, document.Between(1, 8, "", "building.why-live-terminals"))
	m.Maybe("first_terminal_m", &s.FirstTerminalM, document.Between(-10, 10, "m", "building.why-first-terminal"))
	m.Float("terminal_width", &s.TerminalWidth, document.Between(0.1, 0.95, "", "building.why-terminal-width"))
	m.Float("brush_width", &s.BrushWidth, document.Between(0.05, 2, "", "building.why-brush-width"))
	document.ListOf(m, "joins", &s.Joins, document.Count(0, mostJoins, "building.why-joins"), join)
	m.Either("advance_m", "advance_up_m", "advance_down_m", &s.AdvanceUpM, &s.AdvanceDownM,
		document.Between(0.2, 6, "m", "building.why-advance"))
	m.Float("advance_contact_m", &s.AdvanceContactM, document.Between(0.03, 0.5, "m", "building.why-advance-contact"))
	m.Float("zone_half_m", &s.ZoneHalfM, document.Between(0.05, 0.5, "m", "building.why-zone"))
	m.Float("crossover_half_m", &s.CrossoverHalfM, document.Between(0.02, 0.5, "m", "building.why-crossover"))
	m.Float("roller_hysteresis_m", &s.RollerHysteresisM, document.Between(0, 0.02, "m", "building.why-hysteresis"))
}

func join(m *document.Mapping, j *Join) {
	m.Need("terminal", "floor")
	m.Int("terminal", &j.Terminal, document.Count(0, mostJoins-1, "building.why-join-terminal"))
	m.Text("floor", &j.Floor, document.Count(1, len(Blank), "building.why-join-floor"))
}

func (s *Shaft) declare(m *document.Mapping) {
	m.Float("vane_half_m", &s.VaneHalfM, document.Between(0.005, 0.3, "m", "building.why-vane"))
	m.Float("stop_limit_m", &s.StopLimitM, document.Between(0.02, 0.5, "m", "building.why-stop-limit"))
	m.Float("final_limit_m", &s.FinalLimitM, document.Between(0.05, 1, "m", "building.why-final-limit"))
}

func (d *Door) declare(m *document.Mapping) {
	m.Float("open_s", &d.OpenS, document.Between(0.5, 15, "s", "building.why-door"))
	m.Float("close_s", &d.CloseS, document.Between(0.5, 15, "s", "building.why-door"))
	m.Float("dwell_s", &d.DwellS, document.Between(0.5, 60, "s", "building.why-dwell"))
	m.Float("cam_s", &d.CamS, document.Between(0.05, 2, "s", "building.why-cam"))
}

func (c *Control) declare(m *document.Mapping) {
	m.Choice("scheme", &c.Scheme, Schemes, "building.why-scheme")
	m.Float("supply_v", &c.SupplyV, document.Between(24, 250, "V", "building.why-supply-v"))
	times := document.Milliseconds(1, 2000, "building.why-relay-time")
	m.Float("relay_operate_ms", &c.RelayOperateS, times)
	m.Float("relay_release_ms", &c.RelayReleaseS, times)
	m.Float("direction_operate_ms", &c.DirectionOperateS, times)
	m.Float("direction_release_ms", &c.DirectionReleaseS, times)
	m.Float("start_operate_ms", &c.StartOperateS, times)
	m.Float("start_release_ms", &c.StartReleaseS, times)
	m.Float("level_operate_ms", &c.LevelOperateS, times)
	m.Float("level_release_ms", &c.LevelReleaseS, times)
	m.Float("contactor_operate_ms", &c.ContactorOperateS, times)
	m.Float("contactor_release_ms", &c.ContactorReleaseS, times)
}
