using Shimwright.Bench.Engines;
using Shimwright.Jobs.Setups;
using Shimwright.Storage;

namespace Shimwright.Cli.Tests.Samples;

/// <summary>A bench in a file with one job of the demo.</summary>
internal static class BenchFile
{
    public static async Task<string> MakeAsync(string file)
    {
        CancellationToken cancel = TestContext.Current.CancellationToken;
        BenchDatabase bench = BenchDatabase.At(file, TimeProvider.System);
        await bench.PrepareAsync(cancel);
        ParsedSetup demo = JobSetup.FromFile(await File.ReadAllBytesAsync(Demo.At(Demo.Plain), cancel));
        Guid engine = Guid.NewGuid();
        await bench.Engines.AddAsync(engine, demo.Setup!.Card.Engine.Name, demo.Setup.Card, new CardDetails(), cancel: cancel);
        await bench.Jobs.StartAsync(engine, demo.Setup, demo.Facts, Guid.NewGuid(), "test", cancel);
        return file;
    }
}
