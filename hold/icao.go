package hold

const pansops = "ICAO Doc 8168, 5th ed. 2006"

// ICAO are the rules of ICAO in normal conditions: 230, 240 and 265 KIAS to 14,000, to
// 20,000 and to 34,000 ft, M 0.83 above; 1 minute outbound in still air to 14,000 ft,
// 1.5 above.
//
// Source: AFMAN 11-217 Vol 1 (3 Jan 2005) table 18.4, which reproduces Doc 8168; leg
// times from ICAO Doc 8168 Vol I (secondary copies).
func ICAO() Rules {
	const source = "AFMAN 11-217 Vol 1 (2005) table 18.4"
	return icao("ICAO", pansops, []SpeedBand{
		{14000, SpeedLimit{IAS: 230}, source},
		{20000, SpeedLimit{IAS: 240}, source},
		{34000, SpeedLimit{IAS: 265}, source},
		{MaxAltitude, SpeedLimit{Mach: 0.83}, source},
	})
}

// ICAOCategoryAB are the rules of [ICAO] where the hold is limited to aircraft of
// category A and B: 170 KIAS to 14,000 ft.
//
// Source: as [ICAO].
func ICAOCategoryAB() Rules {
	r := ICAO()
	r.Authority = "ICAO, category A and B"
	r.Speeds[0].Limit.IAS = 170
	return r
}

// ICAOTurbulence are the rules of ICAO in turbulence, which take the approval of air
// traffic control: 280 KIAS to 14,000 ft, the lesser of 280 KIAS and M 0.80 to 34,000
// ft, M 0.83 above.
//
// Source: AFMAN 11-217 Vol 1 (3 Jan 2005) table 18.4.
func ICAOTurbulence() Rules {
	const source = "AFMAN 11-217 Vol 1 (2005) table 18.4, turbulence"
	return icao("ICAO, turbulence", pansops, []SpeedBand{
		{14000, SpeedLimit{IAS: 280}, source},
		{34000, SpeedLimit{IAS: 280, Mach: 0.80}, source},
		{MaxAltitude, SpeedLimit{Mach: 0.83}, source},
	})
}

// ICAOTurbulenceAB are the rules of [ICAOTurbulence] where the hold is limited to
// aircraft of category A and B: 170 KIAS to 14,000 ft.
//
// Source: as [ICAOTurbulence].
func ICAOTurbulenceAB() Rules {
	r := ICAOTurbulence()
	r.Authority = "ICAO, turbulence, category A and B"
	r.Speeds[0].Limit.IAS = 170
	return r
}

// ICAOEarlier are the speed limits of an earlier ICAO edition, still found in some
// publications: 210, 220, 240 and 265 KIAS to 6,000, 14,000, 20,000 and 34,000 ft, M
// 0.83 above.
//
// Source: public texts that reproduce it; the edition is not known.
func ICAOEarlier() Rules {
	const source = "ICAO, earlier edition (secondary copies)"
	return icao("ICAO", "earlier edition", []SpeedBand{
		{6000, SpeedLimit{IAS: 210}, source},
		{14000, SpeedLimit{IAS: 220}, source},
		{20000, SpeedLimit{IAS: 240}, source},
		{34000, SpeedLimit{IAS: 265}, source},
		{MaxAltitude, SpeedLimit{Mach: 0.83}, source},
	})
}

func icao(authority, edition string, speeds []SpeedBand) Rules {
	return Rules{
		Authority: authority, Edition: edition, Speeds: speeds,
		Legs: legTimes("ICAO Doc 8168 Vol I"), LegTimeIs: OutboundStillAirTime, Turns: ICAOTurn(),
	}
}
