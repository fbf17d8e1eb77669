package solve_test

// Where fingerings come from, for the rows.
const (
	practice    = "common practice, no source"
	ballard     = "S. Ballard (which finger crosses); digits from memory"
	hall        = "D. Hall, The Complete Chromatic Harp, ex. 13"
	byrne       = "photographs of P. Byrne, 1840s, described by Chadwick 2016, at second hand"
	christy     = "Christy-Lyn, 10 Rules of Harp Fingering (learningtheharp.com)"
	fionn       = "Fionn, Etüde 3er-Gruppen, clarsach.de"
	fionn05     = "Fionn, Etüde 05, clarsach.de"
	jouer       = "Simplearp, Jouer (a small home-built harp, spacing not given)"
	bunting     = "Bunting 1840 pp. 24-26, as quoted by S. Chadwick and C. O Baoill"
	taylor      = "Robert ap Huw manuscript p. 35, W. Taylor, Welsh Music History 3, 1999"
	lessons58   = "Stephanie (surname Curcio from memory), Little Lessons 58, On Scales"
	bligh       = "E. Volpé Bligh, Writing for the Pedal Harp"
	philharmon  = "Philharmonia Sound Exchange, Harp, Tips and Tricks (the middle step derived)"
	legacy      = "Harp Legacy Project (the pair inside an octave derived)"
	swanson     = "C. Swanson, Harp Column forum 83412; H. Hernandez, Harp Column, One handed trills"
	sibelius    = "Sibelius Academy, harp notation, after Chaloupka 1979"
	commonA     = "A Common Approach, Harp, P5-B3 (digits derived)"
	lawrence    = "A. Lawrence-King, Ornament 3-4, at second hand"
	derivedFrom = "derived from "
)

// published are fingerings in print or in common use.
var published = []row{
	{"K3", hard, "0 +1 +2 +3 +4 +5", "3 2 1 | 3 2 1", in{use: "123"}, hall},
	{"K4", hard, "0 -1 -2 -3 -4 -5", "1 2 3 | 1 2 3", in{use: "123"}, hall},
	{"K5", hard, "0 +1 +2 +3", "4 3 2 1", in{}, "D. Hall, tetrachords"},
	{"K5", hard, "0 -1 -2 -3", "1 2 3 4", in{}, "D. Hall, tetrachords"},
	{"K6", hard, "0 +1 +2 +3 +4 +5 +6 +7", "4 3 2 1 | 4 3 2 1", in{}, ballard},
	{"K6", hard, "0 -1 -2 -3 -4 -5 -6 -7", "1 2 3 4 | 1 2 3 4", in{}, ballard},
	{"K7", hard, "{0 +2 +4 +7}", "{4 3 2 1}", in{}, byrne},
	{"K7", hard, "{0 +2 +5 +7}", "{4 3 2 1}", in{}, byrne},
	{"K7", hard, "{0 +3 +5 +7}", "{4 3 2 1}", in{}, byrne},
	{"K8, C1", hard, "{0 +2 +4}", "{3 2 1}", in{}, jouer},
	{"K9, A7", hard, "{0 +4}", "{3 1}", in{}, fionn05 + "; " + christy + ", rule 2"},
	{"K10", hard, "{0 +4 +7}", "{4 2 1}", in{}, practice},
	{"K11", hard, "{0 +4 +9}", "{4 2 1}", in{}, practice},
	{"K12", soft, "{0 +7}", "{4 1}", in{}, "a published harp blog; Bunting 1840 p. 26 (right hand)"},
	{"K13", soft, "{0 +2}", "{2 1}", in{}, "D. Hall, ex. 3"},
	{"K13 with the thumb free", soft, "{0 +2}", "{3 2}", in{}, "Bunting 1840 p. 26"},
	{"K14, F6", legal, "0 +1 0 +1", "3 2 4 2", in{ms: []int32{90, 150, 300, 600}}, bunting + ": barrluth beal an-airde; " + lawrence},
	{"K15", soft, "0 +1*4", "2 1", in{ms: []int32{90, 150, 300}}, bunting + ": leagadh anuas"},
	{"K16 as a third", legal, "0 +2 +1", "4 2 3", in{ms: []int32{90, 150, 300, 600}}, bunting + ": casluth, its notes are not known"},
	{"K16 as a second", legal, "0 +1 0", "4 2 3", in{ms: []int32{90, 150, 300, 600}}, bunting + ": casluth, its notes are not known"},
	{"K17", soft, "0 +1 0 +1 0 +1 0 +1", "2 1 2 1 2 1 2 1 or 4 3 | 2 1 | 4 3 | 2 1", in{ms: []int32{130, 150, 200, 300}}, "Harp Column, one-handed trills"},
	{"K18", hard, "0 0 0", "3 2 1 or 4 3 2", in{ms: []int32{60, 90, 120}}, practice + "; what is fast is a guess"},
	{"K22", soft, "+1*4 0*4 +1*4 0*4 0 0 0", "1 2 1 2 3 2 1", in{hand: "right", ms: []int32{100, 120}}, practice},
	{"K22 otherwise", soft, "+1*4 0*4 +1*4 0*4 0 0 0", "1 2 1 3 3 2 1", in{hand: "right", ms: []int32{100, 120}}, practice},
	{"K23", hard, "{0 +4 +7} {+1 +5 +8} {+2 +6 +9} {+3 +7 +10} {+4 +6 +8}", "{4 2 1} | {4 2 1} | {4 2 1} | {4 2 1} | {3 2 1}", in{ms: []int32{300, 600, 900}}, practice},
	{"K24", hard, "0 +1 0 -1 -3", "2 1 2 3 4", in{hand: "right"}, practice},
	{"K25", hard, "{0 +4} +2", "{3 1} 2", in{}, practice},
	{"K26", hard, "{0 +7} {0 +4 +7}", "{4 1} {4 2 1}", in{}, practice},
	{"K28", hard, "0 +4 +9", "4 2 1", in{hand: "left"}, practice},

	{"A1", soft, "{0 +1}", "{2 1}", in{}, christy + ", rule 2"},
	{"A3", soft, "{0 +5}", "{3 1}", in{}, christy + ", rule 2; a piece in sixths as a learner reported it, 2010"},
	{"A6", soft, "0 +4", "3 1", in{}, christy + ", rule 2"},
	{"A10 at 12.5 mm", soft, "{0 +7}", "{3 1}", in{spacing: 12500}, "Harpa Mundi books, publisher's note (Harfenland)"},
	{"A10 at 12 mm", soft, "{0 +7}", "{3 1}", in{spacing: 12000}, "Harpa Mundi books, publisher's note (Harfenland)"},
	{"A12", legal, "{0 +7}", "{4 2}", in{hand: "right"}, bunting + ": ladhar, forked fingers"},
	{"A13", soft, "0", "2", in{}, christy + ", rule 1; repeated slow notes with the index, Fionn"},

	{"B1", soft, "0 +1 +2 +3 +4 +5 +6 +7 +8 +9 +10 +11 +12 +13 +14", "4 3 2 1 | 4 3 2 1 | 4 3 2 1 | 3 2 1", in{}, lessons58 + " (in one hand: derived)"},
	{"B4", legal, "0 +1 +2 +3 +4 +5", "2 1 | 2 1 | 2 1", in{}, lessons58 + "; Telenn lesson 15, Turning"},
	{"B6", soft, "+1 0 -1 -2", "1 2 | 1 2", in{}, lessons58 + "; Telenn lesson 15, Turning"},
	{"B6 to any lower string", legal, "+1 0 -2 -3", "1 2 | 1 2", in{}, lessons58 + "; Telenn lesson 15, Turning"},
	{"B8", hard, "0 +1 +2 +1 +2 +3 +2 +3 +4 +3 +4 +5", "3 2 1 | 3 2 1 | 3 2 1 | 3 2 1", in{use: "123"}, fionn},
	{"B10", legal, "0 +1 +2 +1 +2 +3 +2 +3 +4", "4 3 2 | 4 3 2 | 4 3 2", in{hand: "left"}, bunting + ": bualadh suas"},
	{"B11", hard, "0 +1 +2 +1 0", "3 2 1 2 3", in{hand: "right", use: "123"}, "Fionn, Vierte Melodie (2025), clarsach.de"},
	{"B14", legal, "0 -1 -2 -3 -4", "1 | 1 2 3 4", in{}, bligh + ", point 2 (the slide; digits derived)"},
	{"B14 when fast", soft, "0 -1 -2 -3 -4", "1 | 1 2 3 4", in{ms: []int32{110, 150}}, bligh + ", point 2 (the slide; digits derived)"},
	{"B16", legal, "0 +1 +2 +3 +4", "4 3 2 1 | 1 or 4 | 4 3 2 1", in{ms: []int32{600}}, bligh + ", point 2"},
	{"B17", legal, "0 +1 +2 +3 +4 +5 +6 +7", "4 3 2 1 | 4 3 2 1", in{}, lessons58},

	{"C2", soft, "{0 +2 +5}", "{3 2 1}", in{}, jouer + ", first inversion"},
	{"C5", hard, "{0 +2 +4 +7}", "{4 3 2 1}", in{ms: []int32{800}}, byrne},
	{"C13", soft, "0 +2 +4 +7 +2 +4 +7 +9 +4 +7 +9 +11", "4 3 2 1 | 4 3 2 1 | 4 3 2 1", in{}, commonA},
	{"C13", soft, "0 +2 +4 +6 +7 +9 +11 +13", "4 3 2 1 | 4 3 2 1", in{}, commonA},
	{"C15", soft, "0 +1 +2*2 +3 +4 +5*2", "3 2 1 | 3 2 1", in{hand: "right"}, fionn05},
	{"C15", soft, "0 -1 -2*2 -3 -4 -5*2", "1 2 3 | 1 2 3", in{hand: "right"}, fionn05},
	{"C15", soft, "0 +1 +2*2 +1 +2 +3*2 +2 +3 +4*2", "3 2 1 | 3 2 1 | 3 2 1", in{hand: "right"}, fionn05},
	{"C15", soft, "0 -1 -2*2 -1 -2 -3*2 -2 -3 -4*2", "1 2 3 | 1 2 3 | 1 2 3", in{hand: "right"}, fionn05},

	{"D1", soft, "0 0 0 0", "2 2 2 2", in{hand: "right", ms: []int32{400, 600, 900}}, "Fionn, Wiederholungen, clarsach.de"},

	{"E1", legal, "0 +1 0 +1 0 +1 0 +1", "2 1 2 1 2 1 2 1", in{ms: []int32{110, 130, 150, 300}}, swanson},
	{"E3", legal, "0 +1 0 +1 0 +1 0 +1", "4 3 | 2 1 | 4 3 | 2 1", in{ms: []int32{110, 130, 150, 300}}, swanson},

	{"F1", legal, "0 +1*4", "2 1", in{ms: []int32{90, 150}}, bunting + ": leagadh anuas"},
	{"F9", legal, "0 +1 0 +1", "2 1 2 1", in{ms: []int32{110, 150}}, bunting + ": cul-aithris, its notes inferred"},
	{"F10", legal, "0 +1 0", "3 2 4", in{ms: []int32{90, 150}}, lawrence + ": triple shake, conjectural"},
	{"F13", legal, "+1 0*4", "1 2", in{ms: []int32{65, 90, 150}}, "two schools of the cut, " + bunting},
	{"F13 with the thumb free", legal, "+1 0*4", "2 3", in{ms: []int32{65, 90, 150}}, "two schools of the cut, " + bunting},

	{"G1", legal, "0 +1 +2", "3 2 1", in{}, taylor + ": plethiad y bys bach"},
	{"G3", legal, "+2 0", "2 4", in{}, taylor + ": takiad fforchog"},
	{"G3", legal, "+3 0", "2 4", in{}, taylor + ": takiad fforchog, how wide is not said"},
	{"G5", legal, "+1 0", "3 4", in{}, taylor + ": haner krafiad, its direction inferred"},

	{"scale lifted or connected", legal, "0 +1 +2 +3 +4 +5 +6 +7", "4 3 2 1 | 4 3 2 1 or 3 2 1 | 3 2 1 | 2 1", in{}, lessons58},
	{"cross under with 3", legal, "0 +1 +2 +3 +4 +5 +6", "4 3 2 1 | 3 2 1", in{}, hall + "; " + ballard},
	{"cross under with 2", legal, "0 +1 +2 +3 +4 +5", "4 3 2 1 | 2 1", in{}, lessons58},
	{"sequence, the thumb kept free", legal, "0 +1 +2 +1 +2 +3", "4 3 2 | 4 3 2", in{}, bunting},
	{"sequence", legal, "0 +1 +2 +1 +2 +3", "3 2 1 | 3 2 1", in{}, fionn},
	{"octave by narrow hands and harps", legal, "{0 +7}", "{3 1}", in{spacing: 12500}, "Harpa Mundi books, publisher's note (Harfenland)"},
}
