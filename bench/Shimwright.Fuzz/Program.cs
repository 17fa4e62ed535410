using System.Diagnostics;
using Shimwright.Domain.Advice;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Jobs;
var read = JobFile.Read(File.ReadAllBytes(args[0]), JobPurpose.Plan);
foreach (var p in read.Problems.Take(5)) Console.WriteLine(p);
var job = read.Job!;
var w = Stopwatch.StartNew();
void Lap(string s){ Console.WriteLine($"{s} {w.ElapsedMilliseconds} ms {GC.GetTotalMemory(false)/1000000} MB"); w.Restart(); }
var req = job.ToPlanRequest();
var est = EngineEstimate.From(req.Check, 0.004); Lap($"estimate floor {est.Floor}");
_ = est.Alone; Lap("alone");
_ = NextBlade.Suggest(est, [.. job.Blades]); Lap("nextblade");
var e2 = EngineEstimate.From(req.Check, req.FinestChange); Lap($"estimate2 made {e2.Made:0} {e2.Floor} {e2.Valves[0].Grid.Count}"); var ot = new OptionTable(req, e2); Lap($"options {ot.Made:0}"); var ps = new PlanSearch(req, ot); ps.Best(PlanWeights.Even, 0); Lap($"search nodes {ps.Nodes} assignments {ps.Assignments} unproven {ps.Unproven}"); var plan = Planner.Plan(req); Lap($"plan unproven {plan.Unproven} alt {plan.Alternatives.Count}");
_ = plan.Alternatives.Select(a => a.ChanceAll).Sum(); Lap("chances");
var adv = Advisor.For(job.ToAdviceRequest()); Lap($"advice unweighed {adv.Unweighed} n {adv.Next.Count}");
