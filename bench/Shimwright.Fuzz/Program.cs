using Shimwright.Fuzz;

// worst SEED [SECONDS]: the worst valid job that a search over the limits finds.
// run SEED COUNT: so many spoilt job files, tables and requests; what fell is written out.
return args switch
{
    ["worst", var seed] => WorstJob.Search(Number(seed), 120),
    ["worst", var seed, var seconds] => WorstJob.Search(Number(seed), Number(seconds)),
    ["run", var seed, var count] => await FuzzRun.RunAsync(Number(seed), Number(count)),
    _ => Usage(),
};

static int Number(string text) => int.Parse(text, System.Globalization.CultureInfo.InvariantCulture);

static int Usage()
{
    Console.Error.WriteLine("usage: Shimwright.Fuzz worst SEED [SECONDS] | run SEED COUNT");
    return 2;
}
