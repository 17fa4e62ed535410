using System.Collections.Concurrent;
using Microsoft.AspNetCore.Components.Forms.Mapping;
using Shimwright.Pages.Visits;

namespace Shimwright.Pages.Tests.Served;

/// <summary>Which of the forms that pages ask for have come, by their class and the name of what asks for them.</summary>
internal sealed class ReadForms
{
    private readonly ConcurrentDictionary<(Type Form, string Name), bool> _come = new();

    public bool HasCome(Type form, string name) => _come.ContainsKey((form, name));

    /// <summary>A mapper that takes note of what it has read.</summary>
    public IFormValueMapper Over(VisitRequest request) => new Noting(new FormMapper(request), this);

    private sealed class Noting(FormMapper mapper, ReadForms forms) : IFormValueMapper
    {
        public bool CanMap(Type valueType, string scopeName, string? formName) => mapper.CanMap(valueType, scopeName, formName);

        public void Map(FormValueMappingContext context)
        {
            mapper.Map(context);
            if (context.Result is not null)
            {
                forms._come[(context.ValueType, context.ParameterName)] = true;
            }
        }
    }
}
