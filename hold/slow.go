package hold

import "time"

// SlowWithin is how long before the fix the reduction to the holding speed starts: at 3
// minutes or less. With an advance notice of the hold be at or below the limit by then.
//
// Source: AIM 5-3-8 d; j.8(a) for the advance notice.
const SlowWithin = 3 * time.Minute
