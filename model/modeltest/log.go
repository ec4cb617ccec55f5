package modeltest

// MixedLog and MixedCounts are a log of two jobs at two speeds; what a row belongs to is shown by
// its length, 1, 2, 4, 8 … s.
const (
	MixedLog = `start,station,cause,duration (s),job,speed
2026-03-02 06:10:00,letter,misfeed,1,plain,9000
2026-03-02 06:20:00,letter,misfeed,2,plain,12000
2026-03-02 06:30:00,press,jam,4,coated,9000
2026-03-02 06:40:00,press,flap,8,coated,12000
2026-03-02 06:50:00,letter,jam,16,,
2026-03-03 06:10:00,letter,double,32,coated,12000
`
	MixedCounts = `day,station,job,speed,feeds
2026-03-02,letter,plain,9000,1000
2026-03-02,letter,plain,12000,2000
2026-03-02,letter,coated,9000,4000
2026-03-02,press,coated,9000,4000
2026-03-02,press,coated,12000,8000
2026-03-03,letter,coated,12000,16000
`
)
