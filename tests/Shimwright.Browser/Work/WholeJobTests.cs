using Shimwright.Browser.Running;

namespace Shimwright.Browser.Work;

/// <summary>A whole job in a real browser, from an engine that the bench has never seen to the record for its owner.</summary>
public sealed class WholeJobTests(EmptyBench bench, Chromium chromium) : IClassFixture<EmptyBench>
{
    public static TheoryData<Screen> Screens => [Screen.Phone, Screen.Desk.InDark(), Screen.Phone.WithoutScript()];

    [Theory(DisableDiscoveryEnumeration = true)]
    [MemberData(nameof(Screens))]
    public async Task Job_FromANewEngineToItsRecord_ShowsWhatTheCommandsSay(Screen screen)
    {
        await using BenchWindow window = await chromium.OpenAsync(bench.Address, screen);
        await new DustyJob(window, screen, bench.Folder).RunAsync();
    }
}
