package hold

import "github.com/holdingfix/abeam"

const aim = "AIM 5-3-8, 2023 and later"

// FAA are the rules of the FAA where the chart says nothing else: 200, 230 and 265 KIAS
// to 6,000 ft, to 14,000 ft and above; 1 minute inbound to 14,000 ft, 1.5 above.
//
// Source: AIM 5-3-8 j.2(a) and j.4(a); AFMAN 11-217 Vol 1 (3 Jan 2005) table 10.1.
func FAA() Rules {
	return faa("FAA", []SpeedBand{
		{6000, SpeedLimit{IAS: 200}, "AIM 5-3-8 j.2(a)"},
		{14000, SpeedLimit{IAS: 230}, "AIM 5-3-8 j.2(a)"},
		{MaxAltitude, SpeedLimit{IAS: 265}, "AIM 5-3-8 j.2(a)"},
	})
}

// FAA210 are the rules of [FAA] where the icon for 210 KIAS is charted, which restricts
// the band above 6,000 to 14,000 ft.
//
// Source: AIM 5-3-8 j.2.
func FAA210() Rules {
	r := FAA()
	r.Speeds[1] = SpeedBand{14000, SpeedLimit{IAS: 210}, "AIM 5-3-8 j.2, icon"}
	return r
}

// FAAAirForce are the rules of [FAA] at USAF fields, 310 KIAS unless depicted.
//
// Source: AIM 5-3-8 j.2(b); AFMAN 11-217 Vol 1 (3 Jan 2005) 10.2.4.1.
func FAAAirForce() Rules { return faaAllAltitudes("FAA, USAF field", 310, "AIM 5-3-8 j.2(b)") }

// FAANavy are the rules of [FAA] at Navy fields, 230 KIAS unless depicted.
//
// Source: AIM 5-3-8 j.2(b); AFMAN 11-217 Vol 1 (3 Jan 2005) 10.2.4.1.
func FAANavy() Rules { return faaAllAltitudes("FAA, Navy field", 230, "AIM 5-3-8 j.2(b)") }

// FAAClimb are the rules of [FAA] for a climb in the hold that a published procedure asks
// for, without a limit of its own: 310 KIAS. Any other climb in a hold keeps the limits of
// [FAA]. The general speed rules (14 CFR 91.117) still apply and are not applied here.
//
// Source: AIM 5-3-8 j.2(b)(6).
func FAAClimb() Rules { return faaAllAltitudes("FAA, climb in the hold", 310, "AIM 5-3-8 j.2(b)(6)") }

func faaAllAltitudes(authority string, limit abeam.Knots, source string) Rules {
	return faa(authority, []SpeedBand{{MaxAltitude, SpeedLimit{IAS: limit}, source}})
}

func faa(authority string, speeds []SpeedBand) Rules {
	return Rules{
		Authority: authority, Edition: aim, Speeds: speeds,
		Legs: legTimes("AIM 5-3-8 j.4(a)"), LegTimeIs: InboundTime, Turns: FAATurn(),
	}
}
