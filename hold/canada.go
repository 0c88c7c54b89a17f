package hold

const tcaim = "TC AIM RAC 10, since 2018"

// Canada are the rules of Transport Canada: 200, 230 and 265 KIAS to 6,000 ft, to 14,000
// ft and above; 1 minute outbound in still air to 14,000 ft, 1.5 above.
//
// Source: speeds from TC AIM RAC 10, since 2018 (secondary copies); leg times, what they
// are of and turns from memory.
func Canada() Rules {
	return canada("Canada", []SpeedBand{
		{6000, SpeedLimit{IAS: 200}, tcaim},
		{14000, SpeedLimit{IAS: 230}, tcaim},
		{MaxAltitude, SpeedLimit{IAS: 265}, tcaim},
	})
}

// CanadaShuttle are the rules of [Canada] for a shuttle climb: 310 KIAS.
//
// Source: TC AIM RAC 10, since 2018 (secondary copies).
func CanadaShuttle() Rules {
	return canada("Canada, shuttle climb", []SpeedBand{{MaxAltitude, SpeedLimit{IAS: 310}, tcaim + ", shuttle climb"}})
}

func canada(authority string, speeds []SpeedBand) Rules {
	return outboundTimed(authority, tcaim, speeds, "TC AIM RAC 10 (from memory)")
}

// outboundTimed are rules whose leg times and turns are those of ICAO, as recalled.
func outboundTimed(authority, edition string, speeds []SpeedBand, source string) Rules {
	return Rules{
		Authority: authority, Edition: edition, Speeds: speeds,
		Legs: legTimes(source), LegTimeIs: OutboundStillAirTime,
		Turns: TurnRule{Rate: StandardRate, Bank: 25, Source: source},
	}
}
