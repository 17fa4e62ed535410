using Shimwright.Bench.Devices;
using Shimwright.Storage.Devices;
using Shimwright.Testing.Benches;

namespace Shimwright.Shop.Tests.Door;

public class DeviceStoreTests
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Theory]
    [OnEachDatabase]
    public async Task LetInAsync_FiftyAtOnceWithOneCode_OneIsLetIn(DatabaseKind kind)
    {
        await using TestDatabase test = await TestDatabase.PreparedAsync(kind);
        OneTimeCode code = await test.Bench.Devices.MakeCodeAsync(DeviceRole.Mechanic, Cancel);
        LetIn[] all = await Task.WhenAll(Enumerable.Range(0, 50).Select(n => Task.Run(() => test.Another().Devices.LetInAsync(code.Text, $"phone {n}", "Ana", Cancel), Cancel)));
        LetIn one = Assert.Single(all, e => e.Outcome == EntryOutcome.LetIn);
        Assert.All(all.Where(e => e != one), e => Assert.Equal((EntryOutcome.WrongCode, null), (e.Outcome, e.Token)));
        Assert.Equal(one.Device!.Name, Assert.Single(await test.Bench.Devices.ListAsync(Cancel)).Name);
        Assert.Equal(49, (await test.Bench.Devices.DoorAsync(Cancel)).WrongCodes);
    }

    [Theory]
    [OnEachDatabase]
    public async Task LetInAsync_AHundredWrongCodes_TheDoorClosesUntilItIsOpened(DatabaseKind kind)
    {
        await using TestDatabase test = await TestDatabase.PreparedAsync(kind);
        DeviceStore devices = test.Bench.Devices;
        OneTimeCode code = await devices.MakeCodeAsync(DeviceRole.Owner, Cancel);
        for (int n = 0; n < DoorState.MostWrong; n++)
        {
            Assert.Equal(EntryOutcome.WrongCode, (await devices.LetInAsync("AAAAAAAA", "phone", "Ana", Cancel)).Outcome);
        }

        Assert.Equal(EntryOutcome.Closed, (await devices.LetInAsync(code.Text, "phone", "Ana", Cancel)).Outcome);
        Assert.True((await devices.DoorAsync(Cancel)).IsClosed);
        Assert.Empty(await devices.ListAsync(Cancel));
        await devices.OpenDoorAsync(Cancel);
        Assert.Equal(EntryOutcome.LetIn, (await devices.LetInAsync(code.Text, "phone", "Ana", Cancel)).Outcome);
    }

    [Theory]
    [OnEachDatabase]
    public async Task LetInAsync_AsItWasReadOutWithinTenMinutes_IsTakenAndLaterIsNot(DatabaseKind kind)
    {
        await using TestDatabase test = await TestDatabase.PreparedAsync(kind);
        DeviceStore devices = test.Bench.Devices;
        OneTimeCode first = await devices.MakeCodeAsync(DeviceRole.Reader, Cancel);
        OneTimeCode second = await devices.MakeCodeAsync(DeviceRole.Reader, Cancel);
        test.Time.Pass(TimeSpan.FromMinutes(9.9));
        Assert.Equal(EntryOutcome.LetIn, (await devices.LetInAsync($" {OneTimeCode.Shown(first.Text).ToLowerInvariant()}-", "phone", "Ana", Cancel)).Outcome);
        test.Time.Pass(TimeSpan.FromMinutes(0.2));
        Assert.Equal(EntryOutcome.WrongCode, (await devices.LetInAsync(second.Text, "phone", "Ana", Cancel)).Outcome);
    }

    [Theory]
    [OnEachDatabase]
    public async Task FindAsync_ADevice_IsKnownAsLongAsItIsUsedAndUntilItIsSentAway(DatabaseKind kind)
    {
        await using TestDatabase test = await TestDatabase.PreparedAsync(kind);
        DeviceStore devices = test.Bench.Devices;
        LetIn program = await devices.AddProgramAsync("parts shop", DeviceRole.Mechanic, Cancel);
        Assert.Null(await devices.FindAsync(new string('0', 64), Cancel));
        for (int month = 0; month < 12; month++)
        {
            test.Time.Pass(TimeSpan.FromDays(30));
            Assert.Equal((program.Device!.Id, true), (await devices.FindAsync(program.Token!, Cancel)) is { } found ? (found.Device.Id, found.IsRenewed) : default);
            Assert.False((await devices.FindAsync(program.Token!, Cancel))!.IsRenewed);
        }

        test.Time.Pass(Device.Kept);
        Assert.Null(await devices.FindAsync(program.Token!, Cancel));
        LetIn other = await devices.AddProgramAsync("other", DeviceRole.Reader, Cancel);
        Assert.True(await test.Another().Devices.RevokeAsync(other.Device!.Id, Cancel));
        Assert.Null(await devices.FindAsync(other.Token!, Cancel));
        Assert.False(await devices.IsInAsync(other.Device.Id, Cancel));
        Assert.False(await devices.RevokeAsync(Guid.NewGuid(), Cancel));
    }

    /// <summary>Whoever reads the file gets neither a code nor a token.</summary>
    [Fact]
    public async Task File_WithDevicesInIt_HoldsNoCodeAndNoToken()
    {
        await using TestDatabase test = await TestDatabase.PreparedAsync(DatabaseKind.Sqlite);
        OneTimeCode code = await test.Bench.Devices.MakeCodeAsync(DeviceRole.Owner, Cancel);
        LetIn program = await test.Bench.Devices.AddProgramAsync("parts shop", DeviceRole.Owner, Cancel);
        await test.CloseAsync();
        string all = string.Concat(Directory.GetFiles(Path.GetDirectoryName(test.Address)!).Select(f => System.Text.Encoding.Latin1.GetString(File.ReadAllBytes(f))));
        Assert.Contains("parts shop", all, StringComparison.Ordinal);
        Assert.DoesNotContain(code.Text, all, StringComparison.Ordinal);
        Assert.DoesNotContain(program.Token!, all, StringComparison.Ordinal);
    }

    [Fact]
    public void NewText_ManyCodes_AreDistinctAndHaveNoLookAlikes()
    {
        string[] codes = [.. Enumerable.Range(0, 2000).Select(_ => OneTimeCode.NewText())];
        Assert.Equal(codes.Length, codes.Distinct().Count());
        Assert.All(codes, c => Assert.Equal(OneTimeCode.Length, c.Length));
        Assert.Empty(string.Concat(codes).Intersect("01IOLSB58U"));
    }

    [Theory]
    [InlineData("Ana Quill", "phone", "Ana Quill")]
    [InlineData("", "parts shop", null)]
    public void PersonOf_ASignature_IsWhoSigned(string person, string name, string? who)
    {
        Device device = new(Guid.NewGuid(), name, person, DeviceRole.Mechanic, person.Length == 0, default, default, null);
        Assert.Equal(who, DeviceSignature.PersonOf(DeviceSignature.Of(device)));
    }

    [Theory]
    [InlineData("3fa2c01b00000000000000000000aaaa")]
    [InlineData("a \u00b7 b")]
    [InlineData("a \u00b7 b \u00b7 no hex!!")]
    [InlineData("")]
    [InlineData(null)]
    public void PersonOf_AnythingElse_IsNobody(string? signature) => Assert.Null(DeviceSignature.PersonOf(signature));

    [Theory]
    [InlineData("", false)]
    [InlineData("   ", false)]
    [InlineData("a\nb", false)]
    [InlineData("a \u00b7 b", false)]
    [InlineData("Zo\u00eb", true)]
    public void Problem_OfAName_IsSaid(string name, bool isRight) => Assert.Equal(isRight, DeviceSignature.Problem("Your name", name) is null);

    [Fact]
    public void Problem_OfANameThatIsTooLong_IsSaid()
    {
        Assert.Null(DeviceSignature.Problem("Your name", new string('a', 60)));
        Assert.Contains("61 characters", DeviceSignature.Problem("Your name", new string('a', 61))!.Found, StringComparison.Ordinal);
    }
}
