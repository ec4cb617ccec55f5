package fit
import ("testing";"netrate/sim")
func TestQuick(t *testing.T){
 var c []sim.Seconds
 for _,x:=range []float64{54,187,216,240,244,335,361,373,375,386}{c=append(c,sim.Seconds(x))}
 o:=Complete(c...)
 for range 10 {o=append(o,Observation{500,true})}
 bb:=Complete(17.88,28.92,33.0,41.52,42.12,45.6,48.48,51.84,51.96,54.12,55.56,67.8,68.64,68.64,68.88,84.12,93.12,98.64,105.12,105.84,127.92,128.04,173.4)
 for _,k:=range Kinds(){ for _,d:=range [][]Observation{o,bb}{ f,err:=Fit(k,d); if err!=nil{t.Fatal(k,err)}; t.Logf("%v %v ll %.12g",k,f.Parameters,f.LogLikelihood); l,h:=f.MeanInterval(.95); t.Log(f.Mean(),f.CV(),l,h)}}
}
