using Shimwright.Fuzz;

// worst SEED [SECONDS]: the worst valid job that a search over the limits finds.
// try FILE: every answer to one job file, with what falls.
// run SEED COUNT [KIND,KIND]: so many spoilt job files, tables and requests; what fell is written out.
return args switch
{
    ["worst", var seed] => WorstJob.Search(Number(seed), 120),
    ["worst", var seed, var seconds] => WorstJob.Search(Number(seed), Number(seconds)),
    ["run", var seed, var count] => await FuzzRun.RunAsync(Number(seed), Number(count)),
    ["run", var seed, var count, var kinds] => await FuzzRun.RunAsync(Number(seed), Number(count), kinds),
    ["try", var file] => Try(file),
    _ => Usage(),
};

static int Number(string text) => int.Parse(text, System.Globalization.CultureInfo.InvariantCulture);

static int Try(string file)
{
    SpoiltJobs.Answer(File.ReadAllBytes(file));
    return 0;
}

static int Usage()
{
    Console.Error.WriteLine("usage: Shimwright.Fuzz worst SEED [SECONDS] | run SEED COUNT [KIND,KIND] | try FILE");
    return 2;
}
