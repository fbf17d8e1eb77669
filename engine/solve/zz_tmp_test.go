package solve_test
import ("testing";"time";"sort";"readyhand/engine/solve")
func TestZZ(t *testing.T){
 type x struct{i int; a,b time.Duration}
 var xs []x
 for i:=0;i<100;i++{
  c:=draw(i)
  t0:=time.Now(); solve.Plan(c.s,c.r); t1:=time.Now(); consult(&c.s,&c.r); t2:=time.Now()
  xs=append(xs,x{i,t1.Sub(t0),t2.Sub(t1)})
 }
 sort.Slice(xs,func(i,j int)bool{return xs[i].a>xs[j].a})
 for _,y:=range xs[:12]{t.Log(y); }
 t.Log("\n"+draw(xs[0].i).String())
 t.Log("\n"+draw(xs[1].i).String())
 sort.Slice(xs,func(i,j int)bool{return xs[i].b>xs[j].b})
 for _,y:=range xs[:12]{t.Log(y)}
}
