using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Shimwright.Bench;
using Shimwright.Bench.Orders;
using Shimwright.Jobs.Members;
using Shimwright.Pages.Drawer;

namespace Shimwright.Web.Files;

/// <summary>What to order as a file of lines and columns: the lines that the page shows.</summary>
internal static class OrderFile
{
    public static void MapOrderFile(this IEndpointRouteBuilder routes) =>
        routes.MapGet("/drawer/orders.csv", Download).ExcludeFromDescription();

    private static async Task<Results<FileContentHttpResult, BadRequest<string>>> Download(IBench bench, string? days, string? level, CancellationToken cancel)
    {
        List<JobProblem> problems = [];
        OrderQuery query = OrderQuery.Read(days, level, problems);
        if (problems.Count > 0)
        {
            return TypedResults.BadRequest(string.Join('\n', problems));
        }

        FleetOrders fleet = await bench.Orders.ListAsync(query.Horizon, query.Level, cancel);
        return TypedResults.File(Encoding.UTF8.GetBytes(OrderLines.Write(fleet)), "text/csv; charset=utf-8", "orders.csv");
    }
}
