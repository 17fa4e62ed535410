using System.Net;
using Shimwright.Web.Tests.Pages;

namespace Shimwright.Web.Tests.Timing;

public class TimingPageTests
{
    /// <summary>TM 5-3820-256-24-5, p. 32: a gear one tooth out stands about 11 crank degrees off, which is a gear of some 65 teeth.</summary>
    [Fact]
    public async Task Get_SixtyFiveTeeth_AreElevenCrankDegreesATooth()
    {
        FetchedPage page = await GetAsync("/timing?teeth=65");
        Assert.Contains("11.08 crank degrees", page.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("teeth=40&offset=-4,2&radius=30", "the camshaft is 1 tooth retarded")]
    [InlineData("teeth=40&pins=15&right=14", "the second camshaft is 1 tooth advanced against the first")]
    [InlineData("teeth=40&pins=14&right=14", "right: the second camshaft is where it belongs")]
    public async Task Get_AMarkOrPins_SaysWhatItMeans(string query, string expected)
    {
        FetchedPage page = await GetAsync($"/timing?{query}");
        Assert.Equal(HttpStatusCode.OK, page.Status);
        Assert.Contains(expected, page.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Get_NumberLongerThanOneIs_IsRefused()
    {
        FetchedPage page = await GetAsync($"/timing?teeth=40&radius=30&offset={new string('1', 7000)}");
        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Contains("a number has at most 64 characters", page.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("teeth=7", "allowed is a whole number from 8 to 400")]
    [InlineData("teeth=many", "enter one number")]
    [InlineData("offset=3&radius=30", "teeth: nothing was entered")]
    [InlineData("teeth=40&offset=3", "enter A and B together")]
    [InlineData("teeth=40&pins=14", "those of the manual together")]
    [InlineData("teeth=40&offset=30&radius=2", "are the two swapped?")]
    public async Task Get_WhatCannotBe_IsRefused(string query, string expected)
    {
        FetchedPage page = await GetAsync($"/timing?{query}");
        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Contains(expected, page.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Get_Anything_WarnsOfTheStarter() =>
        Assert.Contains("by hand only until the marks are right", (await GetAsync("/timing")).Text, StringComparison.Ordinal);

    private static async Task<FetchedPage> GetAsync(string address)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        return await FetchedPage.GetAsync(client, address);
    }
}
