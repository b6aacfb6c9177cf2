using RollRide.Scenarios;
using RollRide.Studies;
var s = ScenarioReader.Read(args[0]);
foreach (var w in s.Warnings) Console.WriteLine("warning: " + w);
foreach (var r in Comparison.Run(s.Study))
{
    Console.WriteLine($"{r.Name} Rh {r.Car.Layout.Fitting.HeaveRatio:F4} Rr {r.Car.Layout.Fitting.RollRatio:F4} P {r.Car.SpringPreload:F1} stats {r.Statistics}");
    foreach (var m in r.ReferenceModes.All) Console.WriteLine($"  {m.Name} {m.NaturalFrequency:F3} Hz zeta {m.DampingRatio:F4}");
    Console.WriteLine("  " + r.Metrics.RollResponse);
    Console.WriteLine("  " + r.Metrics.Whole);
    foreach (var w in r.Warnings) Console.WriteLine("  warning: " + w);
}
return 0;
