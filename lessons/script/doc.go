// Package script reads lesson files.
//
// A lesson is one YAML file. It names a building, and in each of its items
// lets the machine run to a frozen frame, asks what will happen, runs on in
// segments and explains. The file never says which answer is right: every
// option makes a claim about the run, and the machine decides.
//
//	version: 1
//	id: two-calls                  # of the address; also the file's name
//	title: Two calls at once
//	level: beginner                # beginner, trainee or skilled
//	aims: [Say which call comes first.]
//	caution: Work on a real lift is for authorised people.
//	building: tidemill-house       # a building that ships
//	scheme: directional            # if not the building's own
//	start: "3"                     # floor names in quotes
//	terms:
//	  - {word: up line, means: The wire that is live while a floor above is calling.}
//	items:
//	  - title: Which call is answered first?
//	    start: "3"                 # if not the lesson's own
//	    lead:                      # moves before the question is put
//	      text: Floors 5 and 2 call.
//	      calls: [{floor: "5", at_s: 0.3}]   # seconds from the start
//	      until: departs 3 + 1 s   # the frozen frame
//	    question: {kind: choose-one, text: Which is answered first?}
//	    options:
//	      - text: Floor 5, then floor 2
//	        stops: ["5", "2"]      # the claim
//	        because: The up line kept the up relay in until {relay.up.out.time}.
//	    calls: [{floor: "2", at_s: 0.1}]     # seconds from the frozen frame
//	    segments:                  # the asked run; it pauses after each
//	      - {until: stops 5, speed: 1, text: "First stop, at {stop.1.time}."}
//	    summary: The lift keeps to one way.
//
// A kind of question "worked" asks nothing: its segments show the steps, with
// reasons. It has no options.
//
// Claims of an option, all of which must hold: stops (every floor at which
// the car stops, in order), goes (up, down or nowhere, at first), happens and
// never (lists of events), order (a list of events, in their order). Exactly
// one option of choose-one may hold.
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
