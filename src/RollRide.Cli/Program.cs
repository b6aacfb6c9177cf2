using RollRide.Cli;

return await CommandLine.RunAsync(args, Console.Out, Console.Error);
