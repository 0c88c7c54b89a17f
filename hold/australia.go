package hold

const aipAustralia = "AIP Australia ENR 1.5"

// Australia are the rules of Airservices Australia: 230, 240 and 265 KIAS to 14,000 ft,
// to 20,000 ft and above; 1 minute outbound in still air to 14,000 ft, 1.5 above.
//
// Source: speeds from AIP ENR 1.5 (secondary copies, the edition is not known); leg
// times, what they are of and turns from memory.
func Australia() Rules {
	return outboundTimed("Australia", aipAustralia, []SpeedBand{
		{14000, SpeedLimit{IAS: 230}, aipAustralia},
		{20000, SpeedLimit{IAS: 240}, aipAustralia},
		{MaxAltitude, SpeedLimit{IAS: 265}, aipAustralia},
	}, aipAustralia+" (from memory)")
}

// AustraliaCategoryAB are the rules of [Australia] where the hold is limited to aircraft
// of category A and B: 170 KIAS to 14,000 ft.
//
// Source: as [Australia]; that the limit ends at 14,000 ft, as that of ICAO does, is
// assumed.
func AustraliaCategoryAB() Rules {
	r := Australia()
	r.Authority = "Australia, category A and B"
	r.Speeds[0].Limit.IAS = 170
	return r
}
