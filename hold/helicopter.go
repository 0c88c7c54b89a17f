package hold

// ICAOHelicopter are the rules of [ICAO] for helicopters: 100 KIAS to 6,000 ft, 170
// above.
//
// Source: ICAO Doc 8168 (secondary copies and from memory).
func ICAOHelicopter() Rules {
	const source = "ICAO Doc 8168 (secondary copies, from memory)"
	return icao("ICAO, helicopters", pansops, []SpeedBand{
		{6000, SpeedLimit{IAS: 100}, source},
		{MaxAltitude, SpeedLimit{IAS: 170}, source},
	})
}

// FAACopter are the rules of [FAA] on COPTER procedures, which have a least holding
// airspeed: 90 KIAS. The limits above it are those of FAA.
//
// Source: AIM 5-3-8 j.2(b)(5).
func FAACopter() Rules {
	r := FAA()
	r.Authority = "FAA, COPTER procedures"
	r.Minimum = 90
	return r
}
