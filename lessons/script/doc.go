// Package script reads lesson files.
//
// A lesson is one YAML file. It names a building, and in each of its items
// lets the machine run to a frozen frame, asks what will happen, runs on in
// segments and explains. The file never says which answer is right: the
// machine decides, by the claim of an option or by the run itself.
//
//	version: 1
//	id: two-calls                  # of the address; also the file's name
//	title: Two calls at once
//	level: beginner                # beginner, trainee or skilled
//	group: circuit                 # wheel, rim, circuit, sequence, machine or further
//	aims: [Say which call comes first.]
//	caution: Work on a real lift is for authorised people.
//	building: tidemill-house       # a building that ships
//	plan: {machine: {handwheel_kg_m2: 0.3}}   # keys of a building file: they change it, or, without it, are all there is
//	scheme: directional            # if not the building's own
//	start: "3"                     # floor names in quotes; or start_m, a height
//	load_kg: 300                   # in the car, if not the building's own
//	terms:
//	  - {word: up line, means: The wire that is live while a floor above is calling.}
//	items:
//	  - title: Which call is answered first?
//	    start: "3"                 # building, plan, scheme, start and load as above, if not the lesson's
//	    before:                    # done before anything moves, see below
//	      - {override: relay.direction, state: stuck}
//	    lead:                      # moves before the question is put
//	      text: Floors 5 and 2 call.
//	      calls: [{floor: "5", at_s: 0.3}]   # seconds from the start; with several buttons "5:up", "5:down", "5:car"
//	      until: departs 3 + 1 s   # the frozen frame
//	    question: {kind: choose-one, text: Which is answered first?}
//	    options:
//	      - text: Floor 5, then floor 2
//	        stops: ["5", "2"]      # the claim
//	        because: The up line kept the up relay in until {relay.up.out.time}.
//	    calls: [{floor: "2", at_s: 0.1}]     # seconds from the frozen frame
//	    inputs: [{at_s: 2, switch: stop-switch, state: open}]
//	    segments:                  # the asked run; it pauses after each
//	      - {until: stops 5, speed: 1, text: "First stop, at {stop.1.time}."}
//	    summary: The lift keeps to one way.
//	    chain: [relay.up in]       # its causes are lit in their order
//	review:                        # offered again after days
//	  - like: 1                    # as item 1, with what is given here instead
//	    start: "1"
//
// Kinds of question, and what each needs:
//
//	worked          nothing is asked: the segments show the steps, with reasons
//	choose-one      options, of which exactly one holds
//	choose-several  options, of which at least one holds
//	order-stops     floors, those offered (all, if left out)
//	set-switches    floors, those whose direction switches are to be set
//	point-at-part   parts, those offered, and one of: first, last (the first or
//	                last of them to come into that state), cause (the one that
//	                brought the event about), now, end (the one in that state at
//	                the frozen frame or at the end)
//	read-number     fact, tolerance and, if not the fact's own, unit
//	lamp-out        event, span_s and tolerance: when it happens, on a time line
//	faulty-part     parts, of which the item forces exactly one
//
// Claims of an option, all of which must hold: stops (every floor at which
// the car stops, in order), goes (up, down or nowhere, at first), happens and
// never (lists of events), order (a list of events, in their order), ends (how
// parts stand at the end), figures (see Figure). The other kinds explain under answers: each is for a class of
// answers (see Right and the constants beside it) or for one whole answer,
// which must be wrong. An option or answer marked "tempting" is what most
// would say who have not met this before.
//
// Inputs do one thing each: press (a button, as in calls), override with state
// (a part is forced) and perhaps factor, switch with state open or closed (of
// the safety line), load_kg, isolator (open, closed), brake_lever (eased,
// set), handwheel_nm.
//
// Conditions (until) and events are described at Until and Event, facts in
// braces at Fact. Texts are Markdown: paragraphs, plain lists, emphasis, code
// and relative links; no HTML, pictures or headings. A lead-in's text may ask
// for facts that need no run, a question and the text of an option for facts
// of the lead-in ("lead."), everything told later for facts of the run so far.
//
// Speed is machine seconds to a second of the viewer's clock, 1 if left out. A
// lead-in or segment lasts at most MotionS on the viewer's clock, which the
// tutor's check proves along with everything else that only a run can tell.
//
// The package runs no machine and knows no words of its own.
package script
