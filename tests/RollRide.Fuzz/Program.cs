using System.CommandLine;
using System.Globalization;
using System.Text.Json.Nodes;
using RollRide.Cli;
using RollRide.Fuzz;

// Numbers written by culture must show; nothing of this program's own may depend on it.
CultureInfo.CurrentCulture = CultureInfo.DefaultThreadCurrentCulture = Judge.ForeignCulture();

var seed = new Option<int>("--seed") { Description = "seed of the cases", DefaultValueFactory = _ => 1 };
var first = new Option<int>("--first") { Description = "number of the first case" };
var cases = new Option<int>("--cases") { Description = "how many cases", DefaultValueFactory = _ => 1000 };
var seconds = new Option<double>("--seconds") { Description = "no case begins after so many seconds", DefaultValueFactory = _ => 3600 };
var limit = new Option<double>("--limit") { Description = "a command that takes more processor time, s, is a finding", DefaultValueFactory = _ => 30 };
var keep = new Option<string?>("--keep") { Description = "folder for the files of each finding" };
var root = new RootCommand("Gives the command line changed scenarios, tables and words, and reports what no input may bring about.") { seed, first, cases, seconds, limit, keep };
root.SetAction(async parsed =>
{
    using var schema = new StringWriter();
    await CommandLine.RunAsync(["schema"], schema, TextWriter.Null);
    var maker = new CaseMaker(Seed.All(Repository.Root), new KeyLimits(JsonNode.Parse(schema.ToString())!), parsed.GetValue(seed));
    var campaign = new Campaign(maker, Console.Out, TimeSpan.FromSeconds(parsed.GetValue(limit)), parsed.GetValue(keep) is { } folder ? Path.GetFullPath(folder) : null);
    return campaign.Run(parsed.GetValue(seed), parsed.GetValue(first), parsed.GetValue(cases), TimeSpan.FromSeconds(parsed.GetValue(seconds)));
});
return await root.Parse(args).InvokeAsync();
